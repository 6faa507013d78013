package main

import (
	"os"
	"os/exec"

	"github.com/spf13/cobra"

	"cutgate/internal/house"
)

// evaluateName is the command that the program starts itself with, to evaluate a shop's
// own rules in a process that can be ended.
const evaluateName = "evaluate"

func newEvaluateCmd(std streams) *cobra.Command {
	return &cobra.Command{
		Use:    evaluateName,
		Short:  "evaluate house rules for another process of the program",
		Hidden: true,
		Args:   cobra.NoArgs,
		RunE:   func(*cobra.Command, []string) error { return house.Serve(std.in, std.out, os.Exit) },
	}
}

// apart is the program itself with that command.
func apart() *exec.Cmd {
	self, err := os.Executable()
	if err != nil {
		self = os.Args[0]
	}
	c := exec.Command(self, evaluateName)
	c.Args[0] = os.Args[0] // by which a program of several knows itself
	return c
}

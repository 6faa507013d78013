package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	if len(os.Args) == 2 && os.Args[1] == evaluateName { // of a test that runs the program in its own process
		main()
	}
	testscript.Main(m, map[string]func(){programName: main})
}

// TestScripts runs the scripts, in which
//
//	exits 1 cutgate check order.yaml
//	expand order.yaml
//
// are exec for a program that ends with a certain exit code, and the putting in of $SOON,
// a day to come, in a file; and [nvim] holds where Neovim is there. CUTGATE_EDITOR=nvim makes it an error that it is not.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       os.Getenv("UPDATE") != "",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"exits": exits, "expand": expand},
		Setup: func(env *testscript.Env) error {
			env.Setenv("SOON", time.Now().AddDate(0, 1, 0).Format(time.DateOnly))
			return nil
		},
		Condition: condition,
	})
}

func expand(ts *testscript.TestScript, _ bool, args []string) {
	for _, name := range args {
		text := strings.ReplaceAll(ts.ReadFile(name), "$SOON", ts.Getenv("SOON"))
		ts.Check(os.WriteFile(ts.MkAbs(name), []byte(text), 0o666))
	}
}

func condition(name string) (bool, error) {
	if name != "nvim" {
		return false, fmt.Errorf("unknown condition %q", name)
	}
	_, err := exec.LookPath(name)
	if err != nil && os.Getenv("CUTGATE_EDITOR") == name {
		return false, err
	}
	return err == nil, nil
}

func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits code program [argument...]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

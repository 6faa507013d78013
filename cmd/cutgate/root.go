package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"strconv"
	"strings"
	"syscall"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"cutgate/internal/editor"
	"cutgate/internal/house"
	"cutgate/internal/render"
	"cutgate/internal/source"
)

// The exit codes.
const (
	exitClean   = 0
	exitFound   = 1 // findings at or above the level that holds
	exitCould   = 2 // could not run, or not on everything
	exitLeft    = 1 // by the protocol, where an editor went without shutting the server down
	programName = "cutgate"
)

// streams are the standard streams.
type streams struct {
	in       *os.File
	out, err *os.File
}

// errFound ends a command that found something; the report has said what.
var errFound = errors.New("findings")

// errSaid ends a command that could not do all of its work and has said why.
var errSaid = errors.New("not everything could be done")

const rootLong = `cutgate checks work orders for curtains, covers and other soft furnishings
before anything is cut: cut sizes, seams, hems, holes, cloth to buy, heat,
hardware and safety. It works out every quantity, and says which on the order
are wrong, how they went wrong and what to write instead.

  cutgate new curtain > order.yaml     an order to fill in
  cutgate check order.yaml             what is wrong with it
  cutgate correct order.yaml           write the right values in
  cutgate ticket order.yaml            what to cut, and how
  cutgate lay order.yaml               where on the cloth to cut it

Exit codes: 0 nothing found at or above --hold-at, 1 something found, 2 could
not run.`

// usageTemplate sets out how a command is written, on lines of a WIDTH.
const usageTemplate = `How to run it:
  {{if .HasParent}}{{.UseLine}}{{else}}{{.CommandPath}} COMMAND [flags]{{end}}{{if .HasAvailableSubCommands}}

Commands:{{range .Commands}}{{if .IsAvailableCommand}}
{{fit WIDTH (printf "  %s %s" (rpad .Name .NamePadding) .Short)}}{{end}}{{end}}{{end}}{{if .HasHelpSubCommands}}

Topics (cutgate help TOPIC):{{range .Commands}}{{if .IsAdditionalHelpTopicCommand}}
{{fit WIDTH (printf "  %s %s" (rpad .Name .NamePadding) .Short)}}{{end}}{{end}}{{end}}{{if .HasExample}}

For example:
{{fit WIDTH .Example}}{{end}}{{if .HasAvailableLocalFlags}}

Flags:
{{flags WIDTH .LocalFlags}}{{end}}{{if .HasAvailableSubCommands}}

Explain a command: {{.CommandPath}} help COMMAND{{end}}
`

const helpTemplate = "{{with (or .Long .Short)}}{{fit WIDTH .}}\n\n{{end}}{{if or .Runnable .HasSubCommands}}{{.UsageString}}{{end}}"

// The functions of templates are the process's, whose commands may write to several streams.
func init() {
	cobra.AddTemplateFunc("fit", func(width int, text string) string { return render.Fit(strings.Trim(text, "\n"), width) })
	cobra.AddTemplateFunc("flags", func(width int, f *pflag.FlagSet) string {
		return strings.TrimRight(f.FlagUsagesWrapped(width), " \n")
	})
}

// run runs the program and returns its exit code.
func run(args []string, std streams) int {
	root := newRootCmd(std)
	root.SetArgs(args)
	err := root.Execute()
	switch {
	case err == nil:
		return exitClean
	case errors.Is(err, errFound):
		return exitFound
	case errors.Is(err, editor.ErrLeft):
		complain(std.err, err)
		return exitLeft
	case errors.Is(err, errSaid), errors.Is(err, syscall.EPIPE):
		// Of a reader that went away there is nobody to tell.
		return exitCould
	}
	complain(std.err, err)
	return exitCould
}

func newRootCmd(std streams) *cobra.Command {
	root := &cobra.Command{
		Use:           programName,
		Short:         "check work orders for soft furnishings before anything is cut",
		Long:          rootLong,
		Version:       version(),
		SilenceErrors: true,
		SilenceUsage:  true,
		Args: func(c *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownCommand(c, args[0])
			}
			return nil
		},
		RunE: func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		if wrong := (*pflag.InvalidValueError)(nil); errors.As(err, &wrong) {
			f := wrong.GetFlag()
			return fmt.Errorf("--%s can't be %q: write %s", f.Name, wrong.GetValue(), valueWords[f.Value.Type()])
		}
		return fmt.Errorf("%w: %s --help lists the flags", err, c.CommandPath())
	})
	root.SetVersionTemplate("{{.Name}} {{.Version}}\n")
	width := strings.NewReplacer("WIDTH", strconv.Itoa(widthOf(std.out)))
	root.SetUsageTemplate(width.Replace(usageTemplate))
	root.SetHelpTemplate(width.Replace(helpTemplate))
	root.SetIn(std.in)
	root.SetOut(std.out)
	root.SetErr(std.err)
	root.CompletionOptions.DisableDefaultCmd = true
	root.AddCommand(
		newCheckCmd(std), newCorrectCmd(std), newTicketCmd(std), newLayCmd(std), newRulesCmd(std), newKindsCmd(std), newHouseCmd(std), newNewCmd(std), newEditorCmd(std), newCompletionCmd(std), newEvaluateCmd(std),
	)
	for i := range topics {
		root.AddCommand(newTopicCmd(&topics[i]))
	}
	root.SetHelpCommand(newHelpCmd())
	root.InitDefaultHelpCmd()
	return root
}

// valueWords say what is written behind a flag, by the types that can be written wrong.
var valueWords = map[string]string{"bool": "true or false", "int64": "a whole number", "uint64": "a whole number, 0 or more", "stringSlice": "words with commas between them"}

// atMostOne takes one argument or none.
func atMostOne(what string) cobra.PositionalArgs {
	return func(c *cobra.Command, args []string) error {
		if len(args) > 1 {
			return fmt.Errorf("%s takes one %s, and there are %d", c.Name(), what, len(args))
		}
		return nil
	}
}

// takesNone takes no argument.
func takesNone(c *cobra.Command, args []string) error {
	if len(args) > 0 {
		return fmt.Errorf("%s takes flags only, and there is %q", c.Name(), args[0])
	}
	return nil
}

// version is the program's version as it was built.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "(devel)" || info.Main.Version == "" {
		return "development"
	}
	return info.Main.Version
}

// homePage is the address of information about the program; whoever builds it for
// others sets it: make build HOME_PAGE=...
var homePage string

// home is that address, or that of the module where its name is one; "" for none.
func home() string {
	if homePage != "" {
		return homePage
	}
	if info, ok := debug.ReadBuildInfo(); ok {
		if host, _, ok := strings.Cut(info.Main.Path, "/"); ok && strings.Contains(host, ".") {
			return "https://" + info.Main.Path
		}
	}
	return ""
}

// complain says an error on standard error, a line of the program for each that was
// joined in it. What else would begin a line, in a file's name, is shown escaped.
func complain(w io.Writer, err error) {
	for _, line := range linesOf(err) {
		text := programName + ": " + source.Show(line)
		if f, ok := w.(*os.File); ok && isTerminal(f) {
			text = render.Fit(text, widthOf(f))
		}
		fmt.Fprintln(w, text)
	}
}

// linesOf are the errors that are joined in one, and the faults of house rules.
func linesOf(err error) (lines []string) {
	if wrong := (*house.Error)(nil); errors.As(err, &wrong) {
		return strings.Split(err.Error(), "\n")
	}
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return []string{strings.TrimSpace(err.Error())}
	}
	var texts []string
	for _, e := range joined.Unwrap() {
		texts = append(texts, e.Error())
		lines = append(lines, linesOf(e)...)
	}
	if err.Error() != strings.Join(texts, "\n") { // they stand within a sentence
		return []string{strings.TrimSpace(err.Error())}
	}
	return lines
}

// Inkwing works the literate worksheets of a Markdown folder: it finds their
// working blocks, checks units, evaluates, and writes the results back.
//
//	inkwing run [path…]      work worksheets and write their results
//	inkwing check [path…]    say what is stale, broken or in error; write nothing
//	inkwing try file a=1 …   say what other inputs change; write nothing
//	inkwing gather s [path…] set out in one table what many worksheets hold
//	inkwing new folder       begin a journal that already works
//	inkwing strip [path…]    take the results out
//	inkwing page [path]       write worksheets as pages to read and print
//	inkwing unpack page.html  take the sources out of a page
//	inkwing desk [folder]    serve them to the browser: read, try, keep
//	inkwing explain [name]   describe a function, a unit or a word of the language
//	inkwing explain file x   say how a quantity of a worksheet came about
//
// A path is a file or a folder; without one the current folder is meant. In a
// folder every .md file with a working block counts; folders whose names begin
// with a dot are passed over and symbolic links are not followed.
//
// The exit code is 0 when all is worked and every limit holds, 1 when a
// worksheet needs attention, 2 when the command could not do its job (usage,
// files, a worksheet that has to be left as it is), 130 when it was interrupted,
// 129 when its terminal was closed, 143 when it was asked to end.
//
// Shortfall: a folder is walked before its first file is worked.
package main

import (
	"errors"
	"io"
	"os"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"inkwing/evaluate/message"
)

// The exit codes.
const (
	fine      = 0
	attention = 1
	failed    = 2
	signalled = 128 // plus the number of the signal, as shells have it: 130 for Ctrl-C
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	ctx, stop := untilSignal()
	defer stop()
	t := newTool(stdin, stdout, stderr)
	root := t.command()
	root.SetArgs(args)
	err := root.ExecuteContext(ctx)
	switch {
	case ctx.Err() != nil:
		return stoppedBy(ctx)
	case err != nil:
		t.complain(err)
		return failed
	case t.out.failed != nil:
		t.complain(t.out.failed)
		return failed
	}
	return t.status
}

// A tool is one run of the command.
type tool struct {
	stdin    io.Reader
	out, err *stream
	status   int // the exit code so far
}

func newTool(stdin io.Reader, stdout, stderr io.Writer) *tool {
	return &tool{stdin: stdin, out: newStream(stdout, os.Getenv), err: newStream(stderr, os.Getenv)}
}

// worsen raises the exit code.
func (t *tool) worsen(status int) { t.status = max(t.status, status) }

// A trouble is an error with what mends it.
type trouble struct {
	error
	hint string
}

func (t trouble) Unwrap() error { return t.error }

// hintOf is what mends an error; empty where nothing is known.
func hintOf(err error) string {
	var with trouble
	errors.As(err, &with)
	return with.hint
}

// complain reports why the command could not do its job.
func (t *tool) complain(err error) {
	t.err.line(t.err.red("inkwing: error:") + " " + visible(err.Error()))
	if hint := hintOf(err); hint != "" {
		t.err.line(t.err.dim("inkwing: hint:") + " " + visible(hint))
	}
	t.worsen(failed)
}

// usage is what cobra found wrong with the command line.
func usage(c *cobra.Command, err error) error {
	var unknown *pflag.NotExistError
	if errors.As(err, &unknown) {
		if near := message.Nearest(unknown.GetSpecifiedName(), flagNames(c)); near != "" {
			return trouble{err, "did you mean --" + near + "?"}
		}
	}
	return trouble{err, "see " + c.CommandPath() + " --help"}
}

// flagNames are the flags that a command takes, by their long names.
func flagNames(c *cobra.Command) (names []string) {
	c.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	return names
}

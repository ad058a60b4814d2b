package main

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"inkwing/cmd/inkwing/desk"
)

func (t *tool) deskCommand() *cobra.Command {
	var root string
	var open bool
	c := &cobra.Command{
		Use:   "desk [folder | file]",
		Short: "Read and change the worksheets of a folder in the browser",
		Long: `Desk serves the worksheets of a folder (the current one, if none is named) to the
browser on this machine, and prints the address; that of the page where a worksheet
is named, whose folder is served. A page there follows each save. A
plain value on it is pressed to try another: everything is worked again, what comes
out otherwise is shown beside what it was, limits broken by it first, and nothing is
written. What was tried can be kept, which writes the number at its place into the
file where it stands, the page's own, another page or a CSV file of the folder, and
changes no other byte, and taken back; and the results can be written into the file,
as run does.

Nobody else is let in: it listens on this machine alone, and the address holds a key
that is made anew each time. Whoever has the address can change the files: keep it
to yourself. Ctrl-C ends it.`,
		Example: "  inkwing desk\n  inkwing desk notes --open",
		Args:    cobra.MaximumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			return t.desk(c.Context(), root, append(args, ".")[0], open)
		},
	}
	c.Flags().StringVar(&root, "root", "", "the folder out of which nothing is read (default: the nearest folder above with .git, else the folder itself)")
	c.Flags().BoolVar(&open, "open", false, "open the browser")
	c.MarkFlagDirname("root")
	c.ValidArgsFunction = func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return nil, cobra.ShellCompDirectiveFilterDirs
	}
	return c
}

// desk serves a folder until somebody ends it.
func (t *tool) desk(ctx context.Context, root, folder string, open bool) error {
	folder, page := startOf(folder)
	config, err := deskOver(root, folder)
	if err != nil {
		return err
	}
	defer config.Folder.Close()
	d := desk.New(config)
	l, err := d.Listen()
	if err != nil {
		return trouble{fmt.Errorf("no port of this machine can be listened on: %w", err), "see whether something forbids it to programs"}
	}
	address := d.Address() + page
	t.out.printf("%s  %s\n", t.out.bold(visible(config.Title)), address)
	t.out.printf("%s\n", t.out.dim("Keep the address to yourself. Ctrl-C ends the desk."))
	if open {
		shut, err := letIn(d, page)
		defer shut()
		if err != nil {
			t.complain(err)
		}
	}
	return d.Serve(ctx, l)
}

// letIn opens the browser, by a file that nobody else reads: every user of a machine
// sees what a program was called with. It gives what takes the file away.
func letIn(d *desk.Desk, page string) (shut func(), err error) {
	dir, err := os.MkdirTemp("", "inkwing-desk-") // for its owner alone
	if err != nil {
		return func() {}, trouble{fmt.Errorf("the browser could not be opened: %w", err), "open the address by hand"}
	}
	shut = func() { os.RemoveAll(dir) }
	at := filepath.Join(dir, "desk.html")
	if err := os.WriteFile(at, d.Door(page), 0o600); err != nil {
		return shut, trouble{fmt.Errorf("the browser could not be opened: %w", err), "open the address by hand"}
	}
	if err := openAddress(at); err != nil {
		return shut, trouble{fmt.Errorf("the browser %w", err), "open the address by hand"}
	}
	return shut, nil
}

// startOf is the folder that is meant, and the page of it that was named.
func startOf(path string) (folder, page string) {
	if isFolder(path) || !strings.EqualFold(filepath.Ext(path), ".md") {
		return path, ""
	}
	return filepath.Dir(path), "page/" + url.PathEscape(filepath.Base(path))
}

// deskOver finds the folder and the root that it is served from.
func deskOver(root, folder string) (c desk.Config, err error) {
	f, err := newFinder(root)
	if err != nil {
		return c, err
	}
	real, err := realPath(folder)
	if err != nil {
		return c, trouble{fmt.Errorf("%s %w", folder, err), "name a folder with worksheets"}
	}
	if !isFolder(real) {
		return c, trouble{fmt.Errorf("%s is neither a folder nor a worksheet", folder), "name the folder that it lies in"}
	}
	c.Base = f.top(real)
	within, err := filepath.Rel(c.Base, real)
	if err != nil || !filepath.IsLocal(within) {
		return c, trouble{errors.New(folder + " lies outside the root"), "name a --root above the folder, or none"}
	}
	c.Within, c.Title, c.Bound = filepath.ToSlash(within), titleOf(filepath.ToSlash(folder)), timed
	c.Folder, err = f.open(c.Base)
	return c, err
}

// timed gives the working of one page its time and its memory. A desk has other pages
// to show: it goes on, however long one cannot be stopped.
func timed(ctx context.Context) (context.Context, func()) {
	memory.patiently()
	return memory.within(ctx)
}

package main

import (
	"context"
	"errors"
	"fmt"
	"path"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"inkwing/cmd/inkwing/disk"
	"inkwing/worksheet/packing"
	"inkwing/worksheet/page"
)

func (t *tool) unpackCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "unpack page.html [folder]",
		Short: "Take the sources out of a page",
		Long: `Unpack takes out of a page what it carries: the worksheet that it was made from,
and all that it uses. Without a folder they go into one beside the page that is
called like it.

A file that stands there already is never written over, nothing is written outside
the folder, and a page with names or sizes that no worksheet has is refused.`,
		Example: "  inkwing unpack journal.html\n  inkwing unpack journal.html mine",
		Args:    wantsPage,
		RunE: func(c *cobra.Command, args []string) error {
			to := strings.TrimSuffix(args[0], filepath.Ext(args[0]))
			if len(args) > 1 {
				to = args[1]
			}
			return t.unpack(c.Context(), args[0], to)
		},
		ValidArgsFunction: completePage,
	}
}

// completePage offers pages, then folders.
func completePage(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveFilterDirs
	}
	return []string{"html"}, cobra.ShellCompDirectiveFilterFileExt
}

func wantsPage(_ *cobra.Command, args []string) error {
	if len(args) < 1 || len(args) > 2 || args[0] == "" {
		return trouble{errors.New("unpack wants a page, and may be given a folder"), "for example: inkwing unpack journal.html"}
	}
	return nil
}

func (t *tool) unpack(ctx context.Context, name, to string) error {
	_, pack, err := openPage(name)
	if err != nil {
		return err
	}
	names := shortNames(pack)
	folder, err := disk.MakeAny(to)
	if err != nil {
		return fmt.Errorf("%s %w", to, err)
	}
	defer folder.Close()
	for _, name := range names {
		if folder.Exists(name) {
			return trouble{fmt.Errorf("%s stands there already, and nothing was taken out", path.Join(filepath.ToSlash(to), name)), "name another folder"}
		}
	}
	for i, f := range pack.Files {
		if err := folder.Lay(ctx, names[i], f.Content()); err != nil {
			return fmt.Errorf("%s %w", path.Join(filepath.ToSlash(to), names[i]), err)
		}
		t.out.printf("%s: written\n", t.out.bold(visible(path.Join(filepath.ToSlash(to), names[i]))))
	}
	return nil
}

// openPage reads a page that somebody made, with what it carries.
func openPage(name string) ([]byte, *packing.Pack, error) {
	folder, err := disk.Open(filepath.Dir(name))
	if err != nil {
		return nil, nil, fmt.Errorf("%s %w", name, err)
	}
	defer folder.Close()
	text, err := folder.Read(filepath.Base(name))
	if err != nil {
		return nil, nil, fmt.Errorf("%s %w", name, err)
	}
	if !page.IsOurs(text) {
		return nil, nil, trouble{fmt.Errorf("%s is no page of this program", name), "inkwing page makes them"}
	}
	pack, err := packing.Of(text)
	if err != nil {
		return nil, nil, trouble{fmt.Errorf("%s %w", name, err), "ask whoever made it for a page with its sources, or for the sources"}
	}
	return text, pack, nil
}

// shortNames are the paths of what is carried, without the folders that all of it
// lies in.
func shortNames(pack *packing.Pack) []string {
	names := make([]string, len(pack.Files))
	for i, f := range pack.Files {
		names[i] = f.Path
	}
	common := path.Dir(names[0]) + "/"
	for _, n := range names {
		for common != "./" && !strings.HasPrefix(n, common) {
			common = path.Dir(strings.TrimSuffix(common, "/")) + "/"
		}
	}
	for i := range names {
		names[i] = strings.TrimPrefix(names[i], common)
	}
	return names
}

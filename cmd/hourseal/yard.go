package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/urfave/cli/v2"

	"hourseal/record/jobsheet"
	"hourseal/record/ledger"
	"hourseal/record/quantity"
	"hourseal/templates"
)

// yard is an open yard folder.
type yard struct {
	dir    string
	files  jobsheet.Folder
	ledger ledger.Ledger
}

const yardFile = "yard.yaml"

var yardFlag = &cli.StringFlag{Name: "yard", Usage: "the yard folder, `DIR`; else HOURSEAL_YARD, else this folder or one above it"}

// openYard finds the yard folder: --yard, HOURSEAL_YARD, the working folder and
// its parents.
func (p *program) openYard(c *cli.Context) (yard, error) { return p.yardAt(c.String(yardFlag.Name)) }

// yardAt is the yard folder that was named, or found where none was.
func (p *program) yardAt(dir string) (yard, error) {
	if dir == "" {
		dir = p.getenv("HOURSEAL_YARD")
	}
	if dir != "" {
		if _, err := os.Stat(filepath.Join(dir, yardFile)); err != nil {
			return yard{}, usageError{fmt.Sprintf("%s is not a yard folder: it has no %s", dir, yardFile), "hourseal init " + dir}
		}
		return openYardAt(dir), nil
	}
	working, err := os.Getwd()
	if err != nil {
		return yard{}, err
	}
	for folder := working; ; folder = filepath.Dir(folder) {
		if _, err := os.Stat(filepath.Join(folder, yardFile)); err == nil {
			return openYardAt(shortest(working, folder)), nil
		} else if !errors.Is(err, fs.ErrNotExist) {
			return yard{}, err
		}
		if folder == filepath.Dir(folder) {
			return yard{}, usageError{"no " + yardFile + " in this folder or above it", "hourseal init DIR, or name the yard folder with --yard DIR"}
		}
	}
}

// shortest writes a folder relative to the working one, so that messages stay
// readable.
func shortest(working, folder string) string {
	if relative, err := filepath.Rel(working, folder); err == nil {
		return relative
	}
	return folder
}

func openYardAt(dir string) yard {
	return yard{
		dir:    dir,
		files:  jobsheet.Open(os.DirFS(dir), templates.Schedules()),
		ledger: ledger.Open(filepath.Join(dir, "records")),
	}
}

// style is how the yard writes figures in text for people.
func (y yard) style() (quantity.Style, error) {
	self, err := y.files.Yard()
	return self.Style, err
}

func (y yard) path(parts ...string) string {
	return filepath.Join(append([]string{y.dir}, parts...)...)
}

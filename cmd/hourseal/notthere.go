package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"hourseal/record/jobsheet"
)

// What is answered when a file is not there, or is another kind of thing.

// missing says plainly that a file is not there, and which was probably meant.
func missing(name string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return usageError{"no file or folder named " + name, insteadOf(name)}
	}
	return err
}

// mostFilesNamed is how many files a hint names.
const mostFilesNamed = 3

// insteadOf is what to type in place of a name that there is none of.
func insteadOf(name string) string {
	if m := machineNumber.FindStringSubmatch(filepath.ToSlash(name)); m != nil {
		return "a record's file, as " + filepath.Join("records", m[1], "0001.cose")
	}
	folder := filepath.Dir(name)
	entries, err := os.ReadDir(folder)
	if err != nil {
		return "there is no folder " + folder + " either; this is " + workingFolder()
	}
	var names, same []string
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), ".") {
			continue
		}
		names = append(names, e.Name())
		if ext := filepath.Ext(name); ext != "" && filepath.Ext(e.Name()) == ext {
			same = append(same, filepath.Join(folder, e.Name()))
		}
	}
	if near := near(filepath.Base(name), names); near != "" {
		return filepath.Join(folder, near)
	}
	if folder == "." { // jobs/1.yaml for 1.yaml
		for _, below := range []string{"jobs", "reports", "keys"} {
			if _, err := os.Stat(filepath.Join(below, name)); err == nil {
				return filepath.Join(below, name)
			}
		}
	}
	if len(same) > 0 {
		return "one of those that are there: " + firstFew(same)
	}
	return "the file's name with its folder; this is " + workingFolder()
}

func workingFolder() string {
	working, err := os.Getwd()
	if err != nil {
		return "a folder that is gone"
	}
	return "the folder " + working
}

func firstFew(names []string) string {
	text := strings.Join(names[:min(len(names), mostFilesNamed)], ", ")
	if more := len(names) - mostFilesNamed; more > 0 {
		text += fmt.Sprintf(", and %d more", more)
	}
	return text
}

// folderForFile refuses a folder where a file is wanted.
func folderForFile(folder string) error {
	hint := "name a file in it"
	entries, _ := os.ReadDir(folder)
	for _, e := range entries {
		if e.Type().IsRegular() && !strings.HasPrefix(e.Name(), ".") {
			hint += ": " + filepath.Join(folder, e.Name())
			break
		}
	}
	return usageError{folder + " is a folder", hint}
}

// noJobSheet says of a file that is plainly something else what it is; nil where it may
// be meant as a job sheet.
func noJobSheet(file string, data []byte) error {
	switch folder := filepath.Base(filepath.Dir(file)); {
	case bytes.HasPrefix(data, []byte("%PDF-")):
		return usageError{file + " is a PDF, and no job sheet", "hourseal verify " + file + ", for a report"}
	case slices.Contains([]string{".cose", ".png", ".jpg", ".jpeg"}, strings.ToLower(filepath.Ext(file))):
		return usageError{file + " is no job sheet", "hourseal show " + file + ", for a record"}
	case folder == "machines":
		return usageError{file + " is a machine file, and no job sheet", "hourseal due " + strings.TrimSuffix(filepath.Base(file), ".yaml") + ", or a file of jobs/"}
	case folder == "schedules":
		return usageError{file + " is a schedule, and no job sheet", "hourseal schedule check " + file}
	}
	return nil
}

// recordHint is which record was probably meant by a name that is none.
func (y yard) recordHint(name string) string {
	const forms = "machine/number such as gannet-port/1, a record file, or a record id"
	if y.dir == "" {
		return forms
	}
	machines, _ := y.ledger.Machines()
	machine, number, _ := strings.Cut(name, "/")
	if !slices.Contains(machines, machine) {
		if machine = jobsheet.Nearest(machine, machines); machine == "" {
			return forms
		}
		if number != "" {
			return machine + "/" + number
		}
	}
	numbers := recordNumbers(y, machine)
	if len(numbers) == 0 {
		return forms
	}
	return fmt.Sprintf("%s/%d, its last", machine, numbers[0])
}

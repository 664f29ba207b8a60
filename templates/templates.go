// Package templates embeds what the program brings along as plain files:
//
//	schedules/   service schedules of common practice, one <id>.yaml each
//	jobsheets/   the files of a new yard folder, and under demo/ a yard with
//	             three jobs
//	steps/       the order of the work: the steps of a worksheet, a file a phase
//	words/       captions, findings and cautions, in the words people read
//	page/        the web page that checks reports; in a release built/ holds the
//	             program inside it
//
// They are text to be read and changed; nothing here interprets them. All of
// the yards, machines and products in them are invented.
//
// In steps/ and words/ people write the YAML files. Beside each stands the same as
// JSON, with the same keys and values in the same order, and the JSON alone is
// embedded: the program inside the web page can read it without a YAML library.
// After a change in one of them, go test ./templates -update (or go generate) writes
// the JSON anew; without -update that test fails where the two differ. It takes
// every value for text as it is written, but true and false; a key twice, a key with
// anything but small letters, digits, - and _, and a value missing are errors.
package templates

import (
	"embed"
	"io/fs"
)

// A variable each, so that a program has only those in it that it asks for: the
// one inside the web page needs the words alone.
var (
	//go:embed schedules/*.yaml
	schedules embed.FS
	//go:embed jobsheets
	jobsheets embed.FS
	//go:embed steps/*.json
	steps embed.FS
	//go:embed words/*.json
	words embed.FS
	//go:embed page
	page embed.FS
)

//go:generate go test -run TestJSONIsMadeFromYAML . -update
//go:generate go run hourseal/cmd/hourseal page --program page/built --source ..

// Schedules holds the built-in schedules, <id>.yaml at the root.
func Schedules() fs.FS { return folder(schedules, "schedules") }

// Jobsheets holds a new yard folder as init writes it (yard.yaml, machines/,
// jobs/) and the yard of the demonstration under demo/.
func Jobsheets() fs.FS { return folder(jobsheets, "jobsheets") }

// Steps holds order.json and, for each phase that it names, <id>.json at the root.
func Steps() fs.FS { return folder(steps, "steps") }

// Words holds cautions.json, findings.json, label.json, report.json, statement.json
// and worksheet.json at the root.
func Words() fs.FS { return folder(words, "words") }

// Page holds page.html, page.css and the parts of its script, and in a release
// built/page.wasm.gz and built/wasm_exec.js.
func Page() fs.FS { return folder(page, "page") }

func folder(files embed.FS, name string) fs.FS {
	sub, err := fs.Sub(files, name)
	if err != nil {
		panic("templates: " + err.Error()) // the names above are fixed, tested
	}
	return sub
}

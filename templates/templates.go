// Package templates embeds what the program brings along as plain files:
//
//	schedules/   service schedules of common practice, one <id>.yaml each
//	jobsheets/   the files of a new yard folder, and under demo/ a yard with
//	             three jobs
//	steps/       the order of the work: the steps of a worksheet, a file a phase
//	words/       captions, findings and cautions, in the words people read
//
// They are text to be read and changed; nothing here interprets them. All of
// the yards, machines and products in them are invented.
package templates

import (
	"embed"
	"io/fs"
)

//go:embed schedules/*.yaml jobsheets steps/*.yaml words/*.yaml
var files embed.FS

// Schedules holds the built-in schedules, <id>.yaml at the root.
func Schedules() fs.FS { return folder("schedules") }

// Jobsheets holds a new yard folder as init writes it (yard.yaml, machines/,
// jobs/) and the yard of the demonstration under demo/.
func Jobsheets() fs.FS { return folder("jobsheets") }

// Steps holds order.yaml and, for each phase that it names, <id>.yaml at the root.
func Steps() fs.FS { return folder("steps") }

// Words holds findings.yaml, report.yaml, worksheet.yaml and cautions.yaml at the
// root.
func Words() fs.FS { return folder("words") }

func folder(name string) fs.FS {
	sub, err := fs.Sub(files, name)
	if err != nil {
		panic("templates: " + err.Error()) // the names above are fixed, tested
	}
	return sub
}

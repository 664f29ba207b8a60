package main

import (
	"runtime/debug"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record/quantity"
)

var versionFlag = &cli.BoolFlag{Name: "version", Usage: "say what this program was built from"}

// versionLine says what this program was built from, as far as Go knows it.
func versionLine() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "hourseal, version and revision not known"
	}
	return versionOf(info)
}

// madeOn is the date of the revision, or where that is not known the one that is given.
func madeOn(today quantity.Date) string {
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.time" && len(s.Value) > len("2006-01-02") {
				return s.Value[:len("2006-01-02")]
			}
		}
	}
	return today.String()
}

// revisionDigits is how much of a revision is printed.
const revisionDigits = 12

// versionOf is "hourseal VERSION (revision 0123456789ab, modified, go1.26.0)". What a
// build does not know it says: one from a copy without its history knows no revision.
func versionOf(info *debug.BuildInfo) string {
	version := info.Main.Version
	if version == "" || version == "(devel)" {
		version = "of no version"
	}
	settings := map[string]string{}
	for _, s := range info.Settings {
		settings[s.Key] = s.Value
	}
	facts := []string{"revision not known"}
	if revision := settings["vcs.revision"]; revision != "" {
		facts[0] = "revision " + revision[:min(len(revision), revisionDigits)]
		if settings["vcs.modified"] == "true" {
			facts = append(facts, "modified")
		}
	}
	return "hourseal " + version + " (" + strings.Join(append(facts, info.GoVersion), ", ") + ")"
}

package main

import (
	"io/fs"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"hourseal/templates"
	"hourseal/verify"
	"hourseal/verify/source"
)

// foundIn is what a pattern's group finds in a part of the page's script.
func foundIn(t *testing.T, name, pattern string) string {
	t.Helper()
	data, err := fs.ReadFile(templates.Page(), name)
	if err != nil {
		t.Fatal(err)
	}
	found := regexp.MustCompile(pattern).FindStringSubmatch(string(data))
	if found == nil {
		t.Fatalf("%s has no %s", name, pattern)
	}
	return found[1]
}

// Of several files the page answers the worst first, by the order of the exit codes
// in the specification of the command line, as far as one input can have them.
func TestWorstFirstOnThePage(t *testing.T) {
	worstFirst := []int{3, 2, 5, 4, 6, 0}
	all := map[verify.Verdict]bool{}
	for _, verdict := range verify.Verdicts() {
		all[verdict] = true
	}
	at := 0
	for name := range strings.SplitSeq(foundIn(t, "answer.js", `const order = \[([^\]]*)\]`), ", ") {
		verdict := verify.Verdict(strings.Trim(name, `"`))
		if !all[verdict] {
			t.Errorf("%s is no verdict, or is there twice", name)
		}
		delete(all, verdict)
		for at < len(worstFirst) && worstFirst[at] != verdict.ExitCode() {
			at++
		}
		if at == len(worstFirst) {
			t.Fatalf("%s stands too late", name)
		}
	}
	if len(all) > 0 {
		t.Errorf("not in the order: %v", all)
	}
}

// The page takes files as long as the program reads.
func TestLongestFile(t *testing.T) {
	if got := foundIn(t, "inputs.js", `const maxFileBytes = (\d+) \* 1024 \* 1024;`); got != strconv.Itoa(source.MaxImageBytes>>20) {
		t.Errorf("%s MiB, the program reads %d", got, source.MaxImageBytes>>20)
	}
}

// There is room for the files that the page shows and for those that it reads next,
// and for frames of the camera.
func TestRoomForFiles(t *testing.T) {
	files, err := strconv.Atoi(foundIn(t, "inputs.js", `const maxFiles = (\d+);`))
	if err != nil {
		t.Fatal(err)
	}
	if room := maxInputs - 2*files; room < 8 {
		t.Errorf("%d files at once, %d inputs: room for %d more", files, maxInputs, room)
	}
}

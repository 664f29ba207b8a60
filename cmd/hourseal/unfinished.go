package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"

	"hourseal/record/dialogue"
)

// keptIn are the answers of a session that was cut short, as the file keeps them, if
// it is to be gone on with; else the file is put aside. Without answers in it the
// error says what to do by hand.
func (t *typist) keptIn(file string, answers func([]byte) []dialogue.Kept, byHand string) ([]dialogue.Kept, error) {
	data, err := t.p.readInput(file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	kept := answers(data)
	if len(kept) == 0 {
		return nil, usageError{file + " holds no answers to go on with", byHand}
	}
	answer, err := t.choose(fmt.Sprintf("%s has %s from before. Go on with them? y, or a to begin anew", file, countOf(strconv.Itoa(len(kept)), "answer")), "y", "y", "a")
	if err != nil || answer == "y" {
		return kept, err
	}
	aside, err := unusedName(file, "-aside")
	if err != nil {
		return nil, err
	}
	if err := os.Rename(file, aside); err != nil {
		return nil, err
	}
	t.p.words("The former answers are in " + aside + ".")
	return nil, nil
}

// unusedName is a name beside a file's that nothing has yet.
func unusedName(file, suffix string) (string, error) {
	stem := file[:len(file)-len(filepath.Ext(file))] + suffix
	for n := 1; ; n++ {
		name := stem + filepath.Ext(file)
		if n > 1 {
			name = fmt.Sprintf("%s-%d%s", stem, n, filepath.Ext(file))
		}
		if _, err := os.Lstat(name); errors.Is(err, fs.ErrNotExist) {
			return name, nil
		} else if err != nil {
			return "", err
		}
	}
}

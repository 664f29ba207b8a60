package main

import (
	"crypto/sha256"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/verify"
)

var filesFlag = &cli.StringSliceFlag{Name: "files", Usage: "compare the files that the record names with those in `PATH`, a folder or one of them; may be given again"}

// filesGiven is what --files names.
type filesGiven struct {
	folders []string
	files   []givenFile
}

type givenFile struct {
	path   string
	digest record.Digest
	used   bool
}

func (p *program) filesGiven(c *cli.Context) (*filesGiven, error) {
	given := new(filesGiven)
	for _, path := range c.StringSlice(filesFlag.Name) {
		info, err := os.Stat(path)
		if err != nil {
			return nil, missing(path, err)
		}
		if info.IsDir() {
			given.folders = append(given.folders, path)
			continue
		}
		digest, plain := plainDigest(path)
		if !plain {
			return nil, usageError{"--files: " + path + " cannot be read, or is no plain file", "name a file or a folder of files"}
		}
		given.files = append(given.files, givenFile{path: path, digest: digest})
	}
	return given, nil
}

// withFiles holds what is at hand to the files that the answer's record names: in
// a folder that is named as its input is, without the ending, in what --files names, and,
// loose, in the input's own folder. A file that was given by itself may have another name.
func (g *filesGiven) withFiles(a answer) answer {
	if len(a.result.Files) == 0 {
		return a
	}
	var found []verify.FoundFile
	look := func(folder, name string, loose bool) {
		path := filepath.Join(folder, name)
		if digest, plain := plainDigest(path); plain {
			found = append(found, verify.FoundFile{Name: name, SHA256: digest, Place: path, Loose: loose})
		}
	}
	for _, f := range a.result.Files {
		for _, place := range a.places() {
			look(place.folder, f.Name, place.loose)
		}
		for _, folder := range g.folders {
			look(folder, f.Name, false)
		}
		for i := range g.files {
			if given := &g.files[i]; filepath.Base(given.path) == f.Name || given.digest == f.SHA256 {
				given.used = true
				found = append(found, verify.FoundFile{Name: f.Name, SHA256: given.digest, Place: given.path})
			}
		}
	}
	a.result = a.result.WithFiles(found)
	return a
}

// tellUnused names the files that were given and are none that a record names.
func (p *program) tellUnused(g *filesGiven) {
	for _, f := range g.files {
		if !f.used {
			p.tell("%s: no record here names it, nor its content", f.path)
		}
	}
}

// place is a folder in which the files of an input's record may be.
type place struct {
	folder string
	loose  bool
}

// places are the folders beside an input; of standard input and of a text none.
func (a answer) places() []place {
	of := a.of
	if of == nil {
		of = []string{a.input}
	}
	var places []place
	for _, input := range of {
		if input == "-" || isQRText(input) {
			continue
		}
		for _, beside := range []place{{strings.TrimSuffix(input, filepath.Ext(input)), false}, {filepath.Dir(input), true}} {
			if beside.folder != "" && !slices.Contains(places, beside) {
				places = append(places, beside)
			}
		}
	}
	return places
}

// plainDigest is the SHA-256 of a plain file, false where there is none that can be read.
// One that is larger than any that goes with a record has the digest of none.
func plainDigest(path string) (record.Digest, bool) {
	info, err := os.Stat(path)
	if err != nil || !info.Mode().IsRegular() {
		return record.Digest{}, false
	}
	f, err := os.Open(path)
	if err != nil {
		return record.Digest{}, false
	}
	defer f.Close()
	hash := sha256.New()
	n, err := io.Copy(hash, io.LimitReader(f, maxAttachmentBytes+1))
	if err != nil {
		return record.Digest{}, false
	}
	if n > maxAttachmentBytes {
		return record.Digest{}, true
	}
	return record.Digest(hash.Sum(nil)), true
}

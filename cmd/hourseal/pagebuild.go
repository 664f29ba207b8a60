package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"

	"hourseal/render/webpage"
	"hourseal/templates"
)

// The program inside the page is built in for a release. A plain checkout builds it
// with the Go at hand, off the network.

const (
	pageProgramFile = "page.wasm.gz"
	pageGlueFile    = "wasm_exec.js"
)

// pageProgram is the program inside the page: the one built in, or built from the
// source, which a folder named forces.
func (p *program) pageProgram(source string) (webpage.Program, error) {
	if source == "" {
		packed, err := fs.ReadFile(templates.Page(), "built/"+pageProgramFile)
		glue, glueErr := fs.ReadFile(templates.Page(), "built/"+pageGlueFile)
		if err == nil && glueErr == nil {
			return webpage.Program{Gzip: packed, Glue: glue}, nil
		}
	}
	dir, err := sourceFolder(source)
	if err != nil {
		return webpage.Program{}, err
	}
	if err := haveGo(); err != nil {
		return webpage.Program{}, err
	}
	p.tell("Building the program inside the page from %s; the first time takes a minute.", dir)
	return buildPageProgram(dir)
}

// sourceFolder finds hourseal's source: the folder named, the one that this program
// was built from, or the module around the working folder.
func sourceFolder(named string) (string, error) {
	if named != "" {
		if !isSource(named) {
			return "", usageError{named + " does not hold hourseal's source", "--source DIR, the folder with hourseal's go.mod"}
		}
		return named, nil
	}
	if _, file, _, ok := runtime.Caller(0); ok {
		if dir := filepath.Join(filepath.Dir(file), "..", ".."); filepath.IsAbs(file) && isSource(dir) {
			return dir, nil
		}
	}
	working, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for dir := working; ; dir = filepath.Dir(dir) {
		if isSource(dir) {
			return dir, nil
		}
		if dir == filepath.Dir(dir) {
			return "", usageError{"the program inside the page is not built in here, and hourseal's source to build it from was not found",
				"--source DIR, the folder with hourseal's go.mod; or a released hourseal, which has it inside"}
		}
	}
}

func isSource(dir string) bool {
	module, err := os.ReadFile(filepath.Join(dir, "go.mod"))
	if err != nil || !bytes.HasPrefix(module, []byte("module hourseal\n")) {
		return false
	}
	_, err = os.Stat(filepath.Join(dir, "cmd", "page"))
	return err == nil
}

func haveGo() error {
	if _, err := exec.LookPath("go"); err != nil {
		return usageError{"the program inside the page is not built in here, and there is no Go to build it with",
			"install Go from your system's packages; or a released hourseal, which has it inside"}
	}
	return nil
}

// sameSource refuses a source of another state than this program: the scripts of the page,
// which are built in, have to fit what is built.
func sameSource(source string) error {
	return fs.WalkDir(templates.Page(), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			if name == "built" {
				return fs.SkipDir
			}
			return err
		}
		ours, err := fs.ReadFile(templates.Page(), name)
		if err != nil {
			return err
		}
		theirs, err := os.ReadFile(filepath.Join(source, "templates", "page", filepath.FromSlash(name)))
		if err == nil && bytes.Equal(ours, theirs) {
			return nil
		}
		return usageError{"this hourseal is not of the same state as the source in " + source, "build it anew there: go build ./cmd/hourseal"}
	})
}

// buildPageProgram builds cmd/page for browsers and takes Go's glue for it. The same
// source and Go give the same bytes.
func buildPageProgram(source string) (webpage.Program, error) {
	if err := haveGo(); err != nil {
		return webpage.Program{}, err
	}
	if err := sameSource(source); err != nil {
		return webpage.Program{}, err
	}
	folder, err := os.MkdirTemp("", "hourseal-page-")
	if err != nil {
		return webpage.Program{}, err
	}
	defer os.RemoveAll(folder)
	defer ifInterrupted(func() { os.RemoveAll(folder) })()
	built := filepath.Join(folder, "page.wasm")
	if _, err := runGo(source, "build", "-trimpath", "-buildvcs=false", "-ldflags=-s -w -buildid=", "-o", built, "./cmd/page"); err != nil {
		return webpage.Program{}, err
	}
	wasm, err := os.ReadFile(built)
	if err != nil {
		return webpage.Program{}, err
	}
	root, err := runGo(source, "env", "GOROOT")
	if err != nil {
		return webpage.Program{}, err
	}
	glue, err := os.ReadFile(filepath.Join(strings.TrimSpace(root), "lib", "wasm", pageGlueFile))
	if err != nil {
		return webpage.Program{}, fmt.Errorf("this Go comes without %s: %w", pageGlueFile, err)
	}
	gzipped, err := packed(wasm)
	return webpage.Program{Gzip: gzipped, Glue: glue}, err
}

// runGo runs the go command for browsers, off the network, and gives what it says.
func runGo(dir string, args ...string) (string, error) {
	cmd := exec.Command("go", args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOFLAGS=", "GOWORK=off", "GOPROXY=off", "GOTOOLCHAIN=local")
	var out, faults bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &faults
	if err := cmd.Run(); err != nil {
		return "", usageError{fmt.Sprintf("the program inside the page could not be made: go %s in %s: %v: %s", args[0], dir, err, strings.TrimSpace(faults.String())),
			"where something is to be downloaded: go mod download, once, there, with the network"}
	}
	return out.String(), nil
}

// packed gzips, as small as it goes, without a time.
func packed(data []byte) ([]byte, error) {
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(data); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// writePageProgram writes what a release has built in.
func (p *program) writePageProgram(source, dir string) error {
	folder, err := sourceFolder(source)
	if err != nil {
		return err
	}
	inside, err := buildPageProgram(folder)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	if err := replaceFile(filepath.Join(dir, pageProgramFile), inside.Gzip); err != nil {
		return err
	}
	if err := replaceFile(filepath.Join(dir, pageGlueFile), inside.Glue); err != nil {
		return err
	}
	p.say("%s: the program inside the page, %.2f MB packed, and Go's glue for it", dir, float64(len(inside.Gzip))/1e6)
	return nil
}

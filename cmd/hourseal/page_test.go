package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"hourseal/render/webpage"
)

// goVariables let a run of the program in a home of its own build with what the
// tester's Go has built and fetched before.
var goVariables = sync.OnceValue(func() []string {
	var list []string
	for _, name := range []string{"GOCACHE", "GOMODCACHE"} {
		if value, err := exec.Command("go", "env", name).Output(); err == nil {
			list = append(list, name+"="+strings.TrimSpace(string(value)))
		}
	}
	return list
})

// The page of a yard holds its keys, is as small as it has to be, and two runs
// give the same bytes; so do two builds of the program inside it.
func TestPage(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the program inside the page")
	}
	f := newYard(t)
	r := f.must(t, 0, "page", "-o", "out.html")
	page := f.read(t, "out.html")
	if len(page) >= webpage.MaxBytes {
		t.Errorf("%d bytes", len(page))
	}
	t.Logf("%d bytes", len(page))
	print := strings.Fields(f.must(t, 0, "key", "show").stdout)
	for _, word := range print {
		if strings.HasPrefix(word, "SHA256:") && (!bytes.Contains(page, []byte(word)) || !strings.Contains(r.stdout, word)) {
			t.Errorf("the page, or the answer, does not name %s:\n%s", word, r.stdout)
		}
	}
	if !strings.Contains(r.stderr, "https://verify.ellery-slip.example/") {
		t.Errorf("it does not say where to put the page:\n%s", r.stderr)
	}
	if !longRun() {
		return
	}
	f.must(t, 0, "page", "-o", "again.html")
	if !bytes.Equal(page, f.read(t, "again.html")) {
		t.Error("a second run made other bytes")
	}
}

// Without Go or source it says what to do instead.
func TestPageWithoutGo(t *testing.T) {
	f := newYard(t)
	program, err := exec.LookPath("hourseal")
	if err != nil {
		t.Fatal(err)
	}
	cmd := f.command("page", "-o", "out.html")
	cmd.Env = append(cmd.Env, "PATH="+filepath.Dir(program))
	r := ended(t, cmd)
	if r.code != 2 || !strings.Contains(r.stderr, "no Go to build it with") || !strings.Contains(r.stderr, "try: install Go") {
		t.Errorf("%s", r)
	}
	r = f.must(t, 2, "page", "-o", "out.html", "--source", f.dir)
	if !strings.Contains(r.stderr, "does not hold hourseal's source") {
		t.Errorf("%s", r)
	}
	if _, err := os.Stat(f.path("out.html")); err == nil {
		t.Error("a page was written all the same")
	}
}

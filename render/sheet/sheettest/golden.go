// Package sheettest holds printed sheets to their golden texts.
package sheettest

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"
)

var gap = regexp.MustCompile(` {2,}`)

// TextLayer is what pdftotext (poppler) reads off a PDF, page by page. Widths of gaps
// differ between its versions and are made the same.
func TextLayer(t testing.TB, pdf []byte) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(file, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	said := outside.Run(t, "pdftotext", "-layout", "-enc", "UTF-8", file, "-")
	var out strings.Builder
	for page, text := range strings.Split(strings.TrimSuffix(said, "\f"), "\f") {
		fmt.Fprintf(&out, "==== page %d\n", page+1)
		for _, line := range strings.Split(text, "\n") {
			if line = gap.ReplaceAllString(strings.TrimSpace(line), "   "); line != "" {
				out.WriteString(line + "\n")
			}
		}
	}
	return out.String()
}

// Golden holds a text to a golden file, or writes it anew: read it line by line then.
func Golden(t testing.TB, path, got string, update bool) {
	t.Helper()
	if update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the text differs from %s:\n%s", path, difference(string(want), got))
	}
}

// difference shows the first line that differs.
func difference(want, got string) string {
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range max(len(w), len(g)) {
		a, b := "(nothing)", "(nothing)"
		if i < len(w) {
			a = w[i]
		}
		if i < len(g) {
			b = g[i]
		}
		if a != b {
			return fmt.Sprintf("line %d\nwant %s\ngot  %s", i+1, a, b)
		}
	}
	return ""
}

package main

import (
	"bytes"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"unicode"

	"hourseal/record"
	"hourseal/record/recordtest"
	"hourseal/sign"
	"hourseal/sign/qrtext"
)

// hostileTexts are as long in bytes as what they replace in a record, so that
// the CBOR around them stays sound.
var hostileTexts = map[string]string{
	"clears the screen":         "\x1b[2J\x1b[H",
	"sets the window's title":   "\x1b]0;Unaltered\x07",
	"C1 control sequence":       "\u009b31mred",
	"turns the direction round": "\u202e0215400 laires",
	"isolates a direction":      "\u2066Gannet\u2069",
	"beyond the fonts' plane":   "\U0001f6e5 Gannet",
	"carriage return":           "\rUnaltered, and signed by",
	"backspaces":                "\b\b\b\b",
	"zero":                      "a\x00b",
	"tag characters":            "\U000e0041\U000e0042",
	"not UTF-8":                 "\xff\xfe\x80",
	"a surrogate":               "\xed\xa0\xbd",
}

// someHostileTexts are all of them in a long run, else one of each kind.
func someHostileTexts() map[string]string {
	some := maps.Clone(hostileTexts)
	if !longRun() {
		for _, much := range []string{"sets the window's title", "isolates a direction", "beyond the fonts' plane", "backspaces", "tag characters", "a surrogate"} {
			delete(some, much)
		}
	}
	return some
}

// A record with text that the format refuses can only be made by hand. It is
// signed by a key that the reader trusts, and is still not shown.
func TestHostileRecordsStayOffTheTerminal(t *testing.T) {
	y := newYard(t)
	key, err := sign.ParsePrivateKey(y.read(t, "keys/yard"), nil)
	if err != nil {
		t.Fatal(err)
	}
	sound, err := record.Encode(recordtest.Example())
	if err != nil {
		t.Fatal(err)
	}
	const place = "Port Ellery, east slip"
	if bytes.Count(sound, []byte(place)) != 1 {
		t.Fatalf("the record does not hold %q once", place)
	}
	for name, text := range someHostileTexts() {
		t.Run(name, func(t *testing.T) {
			if len(text) > len(place) {
				text = text[:len(place)]
			}
			text += strings.Repeat("x", len(place)-len(text))
			payload := bytes.Replace(sound, []byte(place), []byte(text), 1)
			envelope, err := sign.Seal(sign.RecordV1, payload, key)
			if err != nil {
				t.Fatal(err)
			}
			codes, err := qrtext.Encode(envelope, "verify.ellery-slip.example")
			if err != nil {
				t.Fatal(err)
			}
			f := newFolder(t)
			f.write(t, "hostile.cose", envelope)
			f.write(t, "hostile.txt", []byte(strings.Join(codes, "\n")))
			trust := y.path("trust.yaml")
			for _, args := range [][]string{
				{"verify", "hostile.cose", "--trust", trust, "--content"},
				{"verify", "hostile.cose", "--trust", trust, "--json"},
				{"verify", "hostile.txt", "--trust", trust, "--content"},
				append([]string{"verify", "--trust", trust}, codes...),
				{"show", "hostile.cose"}, {"show", "hostile.cose", "--json"},
				{"report", "hostile.cose", "-o", "report.pdf"},
			} {
				r := f.must(t, 2, args...)
				wantTame(t, r)
				if strings.Contains(r.stdout+r.stderr, "Harrow HD") {
					t.Errorf("%q shows the record:\n%s", args[0], r)
				}
			}
			if _, err := os.Stat(f.path("report.pdf")); err == nil {
				t.Error("a report was printed")
			}
		})
	}
}

// Names and texts that the reader is led to type or to have on disk are no
// better: they reach the terminal only with their code points written out.
func TestHostileNamesStayOffTheTerminal(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("such file names there are none")
	}
	y := newYard(t)
	y.must(t, 0, "issue", portJob)
	for what, text := range someHostileTexts() {
		if strings.Contains(text, "\x00") {
			continue // no argument and no name can hold it
		}
		t.Run(what, func(t *testing.T) {
			f := newFolder(t)
			for _, name := range []string{text + ".cose", text + ".yaml"} {
				if strings.ContainsRune(name, filepath.Separator) {
					t.Fatalf("%q is no name", name)
				}
			}
			f.write(t, text+".cose", y.read(t, "records/gannet-port/0001.cose"))
			f.write(t, text+".yaml", []byte("machine: "+text+"\n"+text+": 1\n"))
			f.write(t, text+".trust", []byte("- name: "+text+"\n"))
			for _, args := range [][]string{
				{"verify", text + ".cose", "no " + text, "HTTPS://" + text + "/#12"}, {"verify", text + ".cose", text + ".cose", "--json"},
				{"show", text + ".cose"}, {"show", text}, {"report", text}, {"report", text + ".cose", "-o", text + ".pdf"},
				{"check", text + ".yaml", "--yard", y.dir}, {"check", text, "--yard", y.dir}, {"check", text + ".yaml", "--json", "--yard", y.dir},
				{"schedule", "show", text}, {"schedule", "check", text + ".yaml", text},
				{"trust", "list", "--trust", text + ".trust"}, {"trust", "remove", text}, {"trust", "add", text, "--name", text},
				{"verify", text + ".cose", "--hours", text}, {"verify", text + ".cose", "--serial", text},
				{text}, {"key", text}, {"verify", "--" + text}, {"check", "x", "--yard", text},
			} {
				wantTame(t, f.run(t, args...))
			}
		})
	}
}

// wantTame holds an output to what a terminal shows as it stands, and a run to
// an exit code of ours.
func wantTame(t *testing.T, r ran) {
	t.Helper()
	for _, c := range r.stdout + r.stderr {
		if c != '\n' && !unicode.IsPrint(c) || c == unicode.ReplacementChar {
			t.Errorf("%U reaches the terminal:\n%q\n%q", c, r.stdout, r.stderr)
			break
		}
	}
	if r.code < 0 || r.code > int(exitDecide) || strings.Contains(r.stderr, "goroutine ") {
		t.Errorf("ended with %d\n%s", r.code, r.stderr)
	}
}

package verifytest_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hourseal/verify"
	"hourseal/verify/source"
	"hourseal/verify/verifytest"
)

var update = flag.Bool("update", false, "write the cases anew: read what changes in their headers")

const folder = "../../testdata/vectors"

// encodersDigest is the SHA-256 of what the Go release that the kit was made with, Go
// 1.26, makes of encodersSample. Other releases may deflate and encode differently.
const encodersDigest = "7f8a7f8e062d4978549d0d78dcfa8bc5a5611dad2a614dab40366c7fc623ac68"

// encodersSample goes through the deflater and the picture encoders: words that come
// again and bytes without a pattern, and a code.
func encodersSample() []byte {
	var b []byte
	for i := range 64 {
		sum := sha256.Sum256([]byte{byte(i)})
		b = append(append(b, sum[:]...), "oil filter, raw-water impeller, Ellery Slip Boatyard\n"...)
	}
	code := codeOf("hourseal", 3)
	return slices.Concat(deflate(b), asPNG(code), asJPEG(code, 70), asGIF(code), []byte(flateImage(code)))
}

// TestKit holds the committed files to what this generator makes, byte for byte. Under
// a Go release whose encoders make other bytes, cases that are marked as deflated are
// held to their headers only; what is in them is tried by TestLibrary all the same.
func TestKit(t *testing.T) {
	sum := sha256.Sum256(encodersSample())
	sameEncoders := hex.EncodeToString(sum[:]) == encodersDigest
	if !sameEncoders {
		t.Logf("this Go release encodes otherwise than the one that the kit was made with: %x", sum)
	}
	made := map[string]bool{}
	for _, c := range kit() {
		name := c.Name + verifytest.Ending
		if made[name] {
			t.Errorf("%s: two cases of that name", name)
			continue
		}
		made[name] = true
		want, err := c.Format()
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		path := filepath.Join(folder, name)
		got, err := os.ReadFile(path)
		if *update {
			if bytes.Equal(got, want) {
				continue
			}
			if err := os.WriteFile(path, want, 0o644); err != nil {
				t.Fatal(err)
			}
			t.Logf("%s: written", name)
			continue
		}
		if err != nil {
			t.Error(err)
			continue
		}
		if c.Deflated && !sameEncoders {
			got, want = header(got), header(want)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s is not what the generator makes of it: run the test with -update, and read the difference", name)
		}
	}
	for _, path := range must(filepath.Glob(filepath.Join(folder, "*"+verifytest.Ending))) {
		switch {
		case made[filepath.Base(path)]:
		case *update:
			if err := os.Remove(path); err != nil {
				t.Fatal(err)
			}
		default:
			t.Errorf("%s: the generator makes no such case", path)
		}
	}
}

func header(file []byte) []byte {
	head, _, _ := bytes.Cut(file, []byte("\n\n"))
	return head
}

// TestFilesReadBack: what is written is what is read.
func TestFilesReadBack(t *testing.T) {
	loaded, err := verifytest.Load(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range loaded {
		again, err := c.Format()
		if err != nil {
			t.Errorf("%s: %v", c.Name, err)
		}
		if file := must(os.ReadFile(filepath.Join(folder, c.Name+verifytest.Ending))); !bytes.Equal(again, file) {
			t.Errorf("%s: read and written again it is another file", c.Name)
		}
	}
}

// The kit has all that it is said to have, and stays small.
func TestKitIsWhole(t *testing.T) {
	const mostBytes = 2_500_000
	verdicts, pages, sources, whats, size := map[verify.Verdict]int{}, map[source.PageResult]int{}, map[source.Kind]int{}, map[string]string{}, 0
	cases, err := verifytest.Load(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range cases {
		verdicts[c.Verdict]++
		pages[c.Page]++
		sources[c.Source]++
		size += len(must(os.ReadFile(filepath.Join(folder, c.Name+verifytest.Ending))))
		if !strings.HasPrefix(c.Name, string(c.Verdict)+"-") {
			t.Errorf("%s: verdict %s", c.Name, c.Verdict)
		}
		if other, twice := whats[c.What]; twice {
			t.Errorf("%s and %s are about the same", c.Name, other)
		}
		whats[c.What] = c.Name
	}
	t.Logf("%d cases, %d bytes; %v; %v; %v", len(cases), size, verdicts, pages, sources)
	if len(cases) != verifytest.Cases || size > mostBytes {
		t.Errorf("%d cases in %d bytes, want %d in %d or less", len(cases), size, verifytest.Cases, mostBytes)
	}
	if told := fmt.Sprintf("%d cases", verifytest.Cases); !strings.Contains(string(must(os.ReadFile("../../README.md"))), told) {
		t.Errorf("README.md does not say %q", told)
	}
	for _, v := range verify.Verdicts() {
		if verdicts[v] < 5 {
			t.Errorf("%d cases of verdict %s", verdicts[v], v)
		}
	}
	for _, p := range []source.PageResult{"", source.PageOriginal, source.PageRedeflated, source.PageDiffers, verify.PageNotCompared} {
		if pages[p] == 0 {
			t.Errorf("no case of page %q", p)
		}
	}
	for _, s := range []source.Kind{source.KindPDF, source.KindImage, source.KindText, source.KindRecord} {
		if sources[s] == 0 {
			t.Errorf("no case of source %q", s)
		}
	}
}

// Nothing that Parse refuses passes for a case.
func TestParseRefuses(t *testing.T) {
	good := string(must(kit()[slices.IndexFunc(kit(), func(c verifytest.Case) bool { return c.Name == "genuine-record-file" })].Format()))
	if _, err := verifytest.Parse([]byte(good)); err != nil {
		t.Fatal(err)
	}
	for name, file := range map[string]string{
		"nothing":            "",
		"no blank line":      strings.Split(good, "\n\n")[0],
		"no verdict":         strings.Replace(good, "verdict: genuine\n", "", 1),
		"an unknown key":     strings.Replace(good, "verdict: ", "verdicts: ", 1),
		"a key twice":        strings.Replace(good, "exit: 0\n", "exit: 0\nexit: 0\n", 1),
		"keys out of order":  strings.Replace(good, "verdict: genuine\nexit: 0\n", "exit: 0\nverdict: genuine\n", 1),
		"an empty value":     strings.Replace(good, "exit: 0", "exit: ", 1),
		"no base64":          good + "*\n",
		"an unknown form":    strings.Replace(good, "input: base64", "input: hex", 1),
		"no form":            strings.Replace(good, "input: base64\n", "", 1),
		"a short id":         strings.Replace(good, "record: ", "record: 00", 1),
		"content it hides":   strings.Replace(good, "verdict: genuine", "verdict: altered", 1),
		"a day without word": strings.Replace(good, "trust: ", "trust: A | ", 1),
	} {
		if _, err := verifytest.Parse([]byte(file)); err == nil {
			t.Errorf("%s: it is taken", name)
		}
	}
}

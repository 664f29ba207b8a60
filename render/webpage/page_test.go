package webpage

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"html"
	"io/fs"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hourseal/sign"
	"hourseal/templates"
)

func madeBy(t *testing.T, name string) Maker {
	t.Helper()
	key, err := sign.NewKey(bytes.NewReader(bytes.Repeat([]byte{7}, 32)))
	if err != nil {
		t.Fatal(err)
	}
	return Maker{Name: name, Host: "verify.ellery-slip.example", Trust: sign.TrustList{{Name: name, Key: key.Public()}}}
}

// someProgram stands in for the program, of two pieces: the page is put together without looking
// into it.
var someProgram = Program{Gzip: bytes.Repeat([]byte{0x1f, 0x8b, 0xff}, 100_000), Glue: []byte("globalThis.Go = class {};\r\n")}

func pageOf(t *testing.T, maker Maker) string {
	t.Helper()
	page, err := Page(maker, someProgram)
	if err != nil {
		t.Fatal(err)
	}
	return string(page)
}

var (
	inlineElement = regexp.MustCompile(`(?s)<(style|script)([^>]*)>(.*?)</(?:style|script)>`)
	policyElement = regexp.MustCompile(`<meta http-equiv="Content-Security-Policy" content="([^"]*)">`)
)

// The policy names the style and the scripts of the page by what they hash to, and
// allows nothing else.
func TestPolicyFits(t *testing.T) {
	page := pageOf(t, madeBy(t, "Ellery Slip Boatyard"))
	found := policyElement.FindStringSubmatch(page)
	if found == nil {
		t.Fatal("no policy")
	}
	if before := page[:strings.Index(page, found[0])]; strings.Contains(before, "<script") || strings.Contains(before, "<style") || strings.Contains(before, "<link") {
		t.Error("the policy comes too late")
	}
	directives := map[string]string{}
	for directive := range strings.SplitSeq(found[1], "; ") {
		name, value, _ := strings.Cut(directive, " ")
		directives[name] = value
	}
	for name, want := range map[string]string{
		"default-src": "'none'", "worker-src": "blob:", "img-src": "data:", "base-uri": "'none'", "form-action": "'none'", "webrtc": "'block'",
	} {
		if directives[name] != want {
			t.Errorf("%s %s, want %s", name, directives[name], want)
		}
	}
	hashes := map[string][]string{}
	for _, element := range inlineElement.FindAllStringSubmatch(page, -1) {
		if strings.Contains(element[2], "type=") {
			continue // data, which a browser does not run
		}
		sum := sha256.Sum256([]byte(element[3]))
		hashes[element[1]] = append(hashes[element[1]], "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'")
	}
	hashes["script"] = slices.Compact(hashes["script"]) // behind each piece of the program stands the same
	if len(hashes["style"]) != 1 || len(hashes["script"]) != 3 {
		t.Fatalf("%d styles, %d scripts", len(hashes["style"]), len(hashes["script"]))
	}
	if got := strings.Fields(directives["style-src"]); !slices.Equal(got, hashes["style"]) {
		t.Errorf("style-src %v, want %v", got, hashes["style"])
	}
	if got, want := strings.Fields(directives["script-src"]), append(hashes["script"], "'wasm-unsafe-eval'"); !slices.Equal(got, want) {
		t.Errorf("script-src %v, want %v", got, want)
	}
	if len(directives) != 8 {
		t.Errorf("directives %v", directives)
	}
}

// Nothing in the page leads out of it, but for the links of the skip line.
func TestNoReferenceOutside(t *testing.T) {
	page := pageOf(t, madeBy(t, "Ellery Slip Boatyard"))
	withoutScripts := inlineElement.ReplaceAllStringFunc(page, func(element string) string {
		if strings.HasPrefix(element, "<style") {
			return element
		}
		return ""
	})
	for _, found := range regexp.MustCompile(`\s(src|srcset|href|action|formaction|poster|data|cite|background|ping|manifest|xlink:href)\s*=\s*("[^"]*"|\S+)`).FindAllStringSubmatch(withoutScripts, -1) {
		if value := strings.Trim(found[2], `"`); !strings.HasPrefix(value, "#") && value != "data:," {
			t.Errorf("%s leads to %s", found[1], value)
		}
	}
	for _, pattern := range []string{`<(iframe|object|embed|base|frame|form|img|audio|source|applet)\b`, `\son\w+\s*=`, `\sstyle\s*=`, `url\(`, `@import`, `@font-face`, `https?://`} {
		if found := regexp.MustCompile(`(?i)` + pattern).FindString(withoutScripts); found != "" {
			t.Errorf("the page has %q", found)
		}
	}
}

// The script puts texts in as texts, makes no code of text and asks no network.
func TestScriptsAreTame(t *testing.T) {
	forbidden := regexp.MustCompile(`\b(innerHTML|outerHTML|insertAdjacentHTML|document\.write|DOMParser|createContextualFragment|srcdoc|eval|Function|fetch|XMLHttpRequest|WebSocket|EventSource|sendBeacon|RTCPeerConnection|importScripts|import|window\.open|cookie|indexedDB)\b`)
	for _, name := range append([]string{"engine.js"}, scripts...) {
		data, err := fs.ReadFile(templates.Page(), name)
		if err != nil {
			t.Fatal(err)
		}
		for i, line := range strings.Split(string(data), "\n") {
			code, _, _ := strings.Cut(line, "//")
			if found := forbidden.FindString(code); found != "" {
				t.Errorf("%s:%d: %s", name, i+1, found)
			}
		}
		// What would end a script element early, or change how it is read.
		if found := regexp.MustCompile(`(?i)</script|<script|<!--`).FindString(string(data)); found != "" {
			t.Errorf("%s has %q", name, found)
		}
	}
}

// Each element that the script asks for is in the page, each label belongs to a
// field, and no id is there twice.
func TestIDs(t *testing.T) {
	page := pageOf(t, madeBy(t, "Ellery Slip Boatyard"))
	ids := map[string]int{}
	for _, found := range regexp.MustCompile(`\sid="([^"]+)"`).FindAllStringSubmatch(page, -1) {
		ids[found[1]]++
	}
	for id, times := range ids {
		if times > 1 {
			t.Errorf("%s is there %d times", id, times)
		}
	}
	asked := regexp.MustCompile(`byId\("([^"]+)"\)|\b(?:for|aria-describedby|aria-labelledby)="([^"]+)"`).FindAllStringSubmatch(page, -1)
	if len(asked) < 30 {
		t.Fatalf("only %d ids are asked for", len(asked))
	}
	for _, found := range asked {
		for id := range strings.FieldsSeq(found[1] + found[2]) {
			if ids[id] == 0 {
				t.Errorf("there is no %s", id)
			}
		}
	}
	for _, field := range regexp.MustCompile(`<(?:input|textarea)[^>]*\sid="([^"]+)"`).FindAllStringSubmatch(page, -1) {
		if !strings.Contains(page, `<label for="`+field[1]+`">`) {
			t.Errorf("%s has no label", field[1])
		}
	}
}

// A name stays text, wherever it stands.
func TestNamesAreText(t *testing.T) {
	const name = `Slip & Sons </script><script>alert("1")</script>{{program}}`
	page := pageOf(t, madeBy(t, name))
	if strings.Contains(page, "<script>alert") {
		t.Error("the name became a script")
	}
	if got := strings.Count(page, html.EscapeString(name)); got != 3 { // title, heading, key
		t.Errorf("the name stands %d times", got)
	}
	if !strings.Contains(page, `\u003c/script\u003e`) {
		t.Error("the name is not in what the script knows")
	}
}

// The pieces of the program, in their order, are the program.
func TestProgramInPieces(t *testing.T) {
	var program []byte
	found := regexp.MustCompile(`<script type="application/octet-stream">([^<]*)</script><script>program\.take\(\);</script>`).
		FindAllStringSubmatch(pageOf(t, madeBy(t, "Ellery Slip Boatyard")), -1)
	if len(found) != 2 {
		t.Errorf("%d pieces", len(found))
	}
	for _, piece := range found {
		decoded, err := base64.StdEncoding.DecodeString(piece[1])
		if err != nil {
			t.Fatal(err)
		}
		program = append(program, decoded...)
	}
	if !bytes.Equal(program, someProgram.Gzip) {
		t.Errorf("%d bytes in pieces, the program has %d", len(program), len(someProgram.Gzip))
	}
}

func TestSameBytes(t *testing.T) {
	first, second := pageOf(t, madeBy(t, "Ellery Slip Boatyard")), pageOf(t, madeBy(t, "Ellery Slip Boatyard"))
	if first != second {
		t.Error("the same parts make other bytes")
	}
}

func TestRefused(t *testing.T) {
	maker := madeBy(t, "Ellery Slip Boatyard")
	long := Program{Gzip: make([]byte, MaxBytes*3/4), Glue: someProgram.Glue}
	broken := maker
	broken.Statements = []byte{1}
	for _, c := range []struct {
		maker   Maker
		program Program
		want    string
	}{
		{maker, long, "the limit is 3000000"},
		{maker, Program{Gzip: someProgram.Gzip}, "is empty"},
		{maker, Program{Glue: someProgram.Glue}, "is empty"},
		{Maker{Trust: maker.Trust}, someProgram, "no name"},
		{Maker{Name: "Ellery Slip Boatyard"}, someProgram, "no key"},
		{broken, someProgram, "no whole envelope"},
	} {
		page, err := Page(c.maker, c.program)
		if err == nil || page != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("want %q, got %v", c.want, err)
		}
	}
}

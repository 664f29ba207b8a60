package verify_test

import (
	"crypto/sha256"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/recordtest"
	"hourseal/sign"
	"hourseal/verify"
)

// withFiles is the example with files kept beside it.
func withFiles(t testing.TB, names ...string) issued {
	t.Helper()
	r := recordtest.Example()
	for _, name := range names {
		r.Files = append(r.Files, record.File{Name: name, SHA256: sha256.Sum256([]byte(name))})
	}
	return seal(t, r, yardSeed)
}

// foundAt is a file that was found: its content is its own name, or another's.
func foundAt(name, content string, loose bool) verify.FoundFile {
	return verify.FoundFile{Name: name, SHA256: sha256.Sum256([]byte(content)), Place: "0001/" + name, Loose: loose}
}

// TestFilesAtHand: what was found under a name, in whatever order, and what it makes of
// a verdict that would be good.
func TestFilesAtHand(t *testing.T) {
	const name, other = "plate.jpg", "another"
	sealed := withFiles(t, name, "meter.jpg")
	own, loose := foundAt(name, name, false), foundAt(name, name, true)
	differs, looseDiffers := foundAt(name, other, false), foundAt(name, other, true)
	for _, c := range []struct {
		what    string
		found   []verify.FoundFile
		state   verify.FileState
		verdict verify.Verdict
	}{
		{"none", nil, verify.FileNotAtHand, verify.Genuine},
		{"its own", []verify.FoundFile{own}, verify.FileAtHand, verify.Genuine},
		{"loose", []verify.FoundFile{loose}, verify.FileAtHand, verify.Genuine},
		{"another in its place", []verify.FoundFile{differs}, verify.FileDiffers, verify.NotOriginal},
		{"another, loose", []verify.FoundFile{looseDiffers}, verify.FileNotAtHand, verify.Genuine},
		{"its own, and another loose", []verify.FoundFile{own, looseDiffers}, verify.FileAtHand, verify.Genuine},
		{"its own, and another given", []verify.FoundFile{own, differs}, verify.FileDiffers, verify.NotOriginal},
		{"one that is not named", []verify.FoundFile{foundAt("engine.jpg", other, false)}, verify.FileNotAtHand, verify.Genuine},
		{"the other's content", []verify.FoundFile{foundAt(name, "meter.jpg", false)}, verify.FileDiffers, verify.NotOriginal},
	} {
		for range 2 {
			got := verify.Run(sealed.pdf(t), buyer(t), makePage).WithFiles(c.found)
			if len(got.Files) != 2 || got.Files[0].State != c.state || got.Files[0].Name != name || got.Files[1].State != verify.FileNotAtHand {
				t.Errorf("%s: %+v", c.what, got.Files)
			}
			if got.Verdict != c.verdict {
				t.Errorf("%s: %s", c.what, got.Verdict)
			}
			if len(c.found) == 2 {
				c.found[0], c.found[1] = c.found[1], c.found[0]
			}
		}
	}
}

// TestFilesUnderOtherVerdicts: a file that differs makes nothing good of what is bad, is
// said there too, and of what is hidden nothing is said at all.
func TestFilesUnderOtherVerdicts(t *testing.T) {
	const also = "A file at hand is not the one that was signed with the record."
	sealed := withFiles(t, "plate.jpg")
	differs := []verify.FoundFile{foundAt("plate.jpg", "another", false)}
	same := []verify.FoundFile{foundAt("plate.jpg", "plate.jpg", false)}
	flipped := append([]byte{}, sealed.envelope...)
	flipped[200] ^= 1
	retired := sign.TrustList{{Name: yardName, Key: keyOf(t, yardSeed).Public(), Until: day(t, "2025-12-31")}}
	for _, c := range []struct {
		what    string
		data    []byte
		reader  verify.Reader
		verdict verify.Verdict
		said    bool
	}{
		{"unknown", sealed.pdf(t), verify.Reader{}, verify.UnknownSigner, true},
		{"key not valid", sealed.pdf(t), verify.Reader{Trust: retired}, verify.KeyNotValid, true},
		{"edited page", append([]byte("\n"), sealed.pdf(t)...), buyer(t), verify.NotOriginal, true},
		{"altered", flipped, buyer(t), verify.Altered, false},
		{"a letter", []byte("Dear buyer"), buyer(t), verify.Unreadable, false},
		{"a list", sealList(t, exampleList(), yardSeed), buyer(t), verify.Genuine, false},
	} {
		run := verify.Run(c.data, c.reader, makePage)
		got := run.WithFiles(differs)
		if got.Verdict != c.verdict || strings.HasSuffix(got.Sentence(), " "+also) != c.said || (got.Files != nil) != c.said {
			t.Errorf("%s: %s: %s", c.what, got.Verdict, got.Sentence())
		}
		if fine := run.WithFiles(same); fine.Verdict != c.verdict || strings.Contains(fine.Sentence(), "file at hand") {
			t.Errorf("%s, the right file at hand: %s: %s", c.what, fine.Verdict, fine.Sentence())
		}
	}
	machine := verify.Run(sealed.pdf(t), verify.Reader{Trust: buyer(t).Trust, Serial: "7"}, makePage).WithFiles(differs)
	want := "A file at hand is not the one that was signed with the record, so do not go by that file; the record is unaltered and signed by " + yardName +
		". The serial number that you gave is not the one in this record."
	if machine.Verdict != verify.NotOriginal || machine.Sentence() != want {
		t.Errorf("%s: %s", machine.Verdict, machine.Sentence())
	}
}

// TestNamesOfFilesAreContent: under a verdict that keeps content back, a file that is not
// at hand is counted and not named.
func TestNamesOfFilesAreContent(t *testing.T) {
	sealed := withFiles(t, "plate.jpg", "meter.jpg")
	for _, on := range []verify.Surface{verify.Terminal, verify.OnPage} {
		var said strings.Builder
		for _, section := range verify.Run(sealed.envelope, verify.Reader{}, makePage).Sections(on) {
			said.WriteString(strings.Join(section.Lines, "\n") + "\n")
		}
		if strings.Contains(said.String(), "plate.jpg") || !strings.Contains(said.String(), "2 files are named in the record and were not at hand. ") {
			t.Error(said.String())
		}
	}
}

// TestHostileNamesOfFiles: what does not print reaches no reader.
func TestHostileNamesOfFiles(t *testing.T) {
	got := verify.Run(withFiles(t, "plate.jpg").envelope, buyer(t), makePage)
	found := foundAt("plate.jpg", "another", false)
	found.Place = "a\x1b[2J\n{name}\u202e"
	for _, text := range allWords(got.WithFiles([]verify.FoundFile{found})) {
		if strings.ContainsAny(text, "\x1b\n\u202e") {
			t.Errorf("%q", text)
		}
	}
}

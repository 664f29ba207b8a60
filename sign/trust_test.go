package sign

import (
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

const (
	lineA = "ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAINdamAGCsQq31Uv+08lkBzoO4XLz2qYjJa8CGmj3B1Ea" // RFC 8032 TEST 1
	lineB = "ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAID1AF8PoQ4lakrcKp00bfrycmCzPLsSWjMDNVfEq9GYM" // RFC 8032 TEST 2
)

func day(t testing.TB, text string) Day {
	t.Helper()
	d, err := ParseDay(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func dayPointer(t testing.TB, text string) *Day {
	d := day(t, text)
	return &d
}

func exampleList(t testing.TB) TrustList {
	return TrustList{
		{
			Name: "Ellery Slip Boatyard", Key: publicOf(t, rfc8032[0].public),
			From: dayPointer(t, "2026-01-15"), Until: dayPointer(t, "2029-12-31"),
			Note:    "fingerprint read out over the telephone\n\"yes\", said the office",
			Revoked: &Revocation{From: day(t, "2028-03-01"), Why: WhyCompromised},
		},
		{Name: `Owner of Gannet: \ # - 'x'`, Key: publicOf(t, rfc8032[1].public)},
	}
}

const exampleFile = `- name: "Ellery Slip Boatyard"
  key: ` + lineA + `
  from: 2026-01-15
  until: 2029-12-31
  note: "fingerprint read out over the telephone\n\"yes\", said the office"
  revoked: { from: 2028-03-01, why: compromised }
- name: "Owner of Gannet: \\ # - 'x'"
  key: ` + lineB + `
`

func TestTrustFile(t *testing.T) {
	want := exampleList(t)
	text, err := want.Format()
	if err != nil || string(text) != exampleFile {
		t.Errorf("Format: %v\n%s", err, text)
	}
	got, err := ParseTrust([]byte(exampleFile), "trust.yaml")
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("ParseTrust: %v\n%+v", err, got)
	}
	for _, empty := range []string{"", "\n", "# nobody yet\n", "---\n", "[]\n"} {
		if got, err := ParseTrust([]byte(empty), "trust.yaml"); err != nil || len(got) != 0 {
			t.Errorf("%q: %v, %v", empty, got, err)
		}
	}
	if text, err := (TrustList{}).Format(); err != nil || string(text) != "[]\n" {
		t.Errorf("empty list: %q, %v", text, err)
	}
	// The example of the package comment.
	if got, err := ParseTrust([]byte(`- name: Ellery Slip Boatyard
  key: `+lineA+`
  from: 2026-01-15
  until: 2029-12-31
  note: fingerprint read out over the telephone
  revoked: { from: 2028-03-01, why: compromised }
`), "trust.yaml"); err != nil || len(got) != 1 {
		t.Errorf("example: %v", err)
	}
	// Windows line ends, and a name that YAML would take for a number.
	if got, err := ParseTrust([]byte("- name: 0012\r\n  key: "+lineA+" yard key\r\n"), "trust.yaml"); err != nil || got[0].Name != "0012" {
		t.Errorf("%v, %v", got, err)
	}
}

func TestTrustFileFaults(t *testing.T) {
	head := "- name: Yard\n  key: " + lineA + "\n"
	for _, c := range []struct{ name, text, want string }{
		{"not a list", "name: Yard\n", `t:1:1: want a list: each entry begins with "- name:"`},
		{"a text", "Yard\n", `t:1:1: want a list: each entry begins with "- name:"`},
		{"an explicit null", "~\n", `t:1:1: want a list: each entry begins with "- name:"`},
		{"entry a text", "- Yard\n", "t:1:3: want keys and values: name, key, from, until, note, revoked"},
		{"entry empty", "- {}\n", "t:1:3: name: missing: whose key is it?\nt:1:3: key: missing: give the line of the .pub file"},
		{"unknown keys", head + "  colour: red\n  {a: b}: c\n", "t:3:3: unknown key \"colour\": the keys are name, key, from, until, note, revoked\nt:4:3: unknown key \"\": the keys are name, key, from, until, note, revoked"},
		{"merge key", head + "  <<: {from: 2026-01-01}\n", `t:3:3: unknown key "<<": the keys are name, key, from, until, note, revoked`},
		{"key twice", head + "  name: Other\n", "t:3:3: name: twice, first in line 1"},
		{"second document", head + "---\n" + head, "t:3:1: a second document: keep one list in the file"},
		{"empty second document", head + "---\n", "t:3:1: a second document: keep one list in the file"},
		{"anchor", "- &a\n  name: Yard\n", "t:1:3: anchor: write the value out"},
		{"alias", "- name: &a Yard\n  key: *a\n", "t:1:9: anchor: write the value out\nt:2:8: alias: write the value out"},
		{"tag", head + "  from: !!str 2026-01-01\n", "t:3:9: tag: leave it out"},
		{"tabs", "- name:\tYard\n  key: é\tx\n", "t:1:8: tab: use spaces\nt:2:9: tab: use spaces"},
		{"syntax", "- name: [\n", "t:1:1: not YAML: did not find expected node content"},
		{"not UTF-8", "- name: \xff\n", "t:1:1: not UTF-8 text: save the file as UTF-8"},
		{"name empty", "- name:\n  key: " + lineA + "\n", "t:1:8: name: empty: give it or leave the key out"},
		{"name quoted empty", "- name: ''\n  key: " + lineA + "\n", "t:1:9: name: empty: whose key is it?"},
		{"name a list", "- name: [a]\n  key: " + lineA + "\n", "t:1:9: name: want a single value"},
		{"name with escape", "- name: \"a\\e[2J\"\n  key: " + lineA + "\n", "t:1:9: name: character U+001B cannot be shown: leave it out"},
		{"name turning round", "- name: \"a\\u202Eb\"\n  key: " + lineA + "\n", "t:1:9: name: character U+202E cannot be shown: leave it out"},
		{"name above U+FFFF", "- name: \"a\\U0001F6A2\"\n  key: " + lineA + "\n", "t:1:9: name: character U+1F6A2 cannot be shown: leave it out"},
		{"name of two lines", "- name: \"a\\nb\"\n  key: " + lineA + "\n", "t:1:9: name: character U+000A cannot be shown: leave it out"},
		{"name with a space", "- name: ' Yard'\n  key: " + lineA + "\n", "t:1:9: name: a space at its beginning or end: leave it out"},
		{"name too long", "- name: " + strings.Repeat("é", 81) + "\n  key: " + lineA + "\n", "t:1:9: name: 81 characters, the limit is 80"},
		{"note too long", head + "  note: " + strings.Repeat("é", 601) + "\n", "t:3:9: note: 601 characters, the limit is 600"},
		{"key of another type", "- name: Yard\n  key: ssh-rsa AAAA\n", "t:2:8: key: key of type ssh-rsa: an ed25519 key is needed, make one with: ssh-keygen -t ed25519 -f FILE"},
		{"weak key", "- name: Yard\n  key: " + PublicKey{1}.OpenSSHLine("") + "\n", "t:2:8: key: weak public key: it is of small order, so anyone can sign with it"},
		{"same key twice", head + head, "t:4:8: key: the same key as in line 2: keep one of the two"},
		{"bad dates", head + "  from: 2026-02-30\n  until: 4.5.2026\n", "t:3:9: from: \"2026-02-30\": not a date: write it as YYYY-MM-DD, such as 2026-05-04\nt:4:10: until: \"4.5.2026\": not a date: write it as YYYY-MM-DD, such as 2026-05-04"},
		{"dates the wrong way round", head + "  from: 2026-02-02\n  until: 2026-02-01\n", "t:4:10: until: 2026-02-01 is before from, 2026-02-02"},
		{"revoked a date", head + "  revoked: 2026-02-02\n", "t:3:12: revoked: write it as { from: 2026-05-04, why: retired } or why: compromised"},
		{"revoked empty", head + "  revoked: {}\n", "t:3:12: revoked: from is missing: write it as { from: 2026-05-04, why: retired } or why: compromised\nt:3:12: revoked: why is missing: write it as { from: 2026-05-04, why: retired } or why: compromised"},
		{"revoked for another reason", head + "  revoked: { from: 2026-02-02, why: lost, by: me }\n", "t:3:37: revoked: why: \"lost\": want retired or compromised\nt:3:43: unknown key \"by\": the keys are from, why"},
		{"all at once", "- name: ''\n  key: x\n  from: y\n- from: z\n", "t:1:9: name: empty: whose key is it?\n" +
			"t:2:8: key: not a public key line: it must begin with \"ssh-ed25519 \"\n" +
			"t:3:9: from: \"y\": not a date: write it as YYYY-MM-DD, such as 2026-05-04\n" +
			"t:4:3: name: missing: whose key is it?\nt:4:3: key: missing: give the line of the .pub file\n" +
			"t:4:9: from: \"z\": not a date: write it as YYYY-MM-DD, such as 2026-05-04"},
	} {
		t.Run(c.name, func(t *testing.T) {
			list, err := ParseTrust([]byte(c.text), "t")
			var faults Faults
			if list != nil || !errors.As(err, &faults) || err.Error() != c.want {
				t.Errorf("got  %v\nwant %s", err, c.want)
			}
		})
	}
	if _, err := ParseTrust(make([]byte, maxTrustFileBytes+1), "t"); err == nil {
		t.Error("a file over the limit is read")
	}
}

func TestTrustRoundTrip(t *testing.T) {
	text := func(max int, newline bool) *rapid.Generator[string] {
		return rapid.StringN(0, max, -1).Filter(func(s string) bool {
			if newline {
				return checkNote(s) == nil
			}
			return checkName(s) == nil
		})
	}
	days := rapid.Map(rapid.Int32Range(-719528, 2932896), func(n int32) Day { return Day(n) })
	rapid.Check(t, func(t *rapid.T) {
		var list TrustList
		for i := range rapid.IntRange(0, 4).Draw(t, "entries") {
			e := Trusted{
				Name: rapid.OneOf(text(10, false), rapid.SampledFrom([]string{"~", "null", "true", "- x", "a: b", "#", `"`, `\n`, "0012", "=", "Årsta Å"})).Draw(t, "name"),
				Note: rapid.OneOf(text(20, true), rapid.SampledFrom([]string{"", "\n", "a\n\n b \n", " x", "%YAML"})).Draw(t, "note"),
			}
			e.Key = PublicKey{byte(100 + i), 1}
			if rapid.Bool().Draw(t, "bounded") {
				a, b := days.Draw(t, "from"), days.Draw(t, "until")
				e.From, e.Until = new(min(a, b)), new(max(a, b))
			}
			if rapid.Bool().Draw(t, "revoked") {
				e.Revoked = &Revocation{days.Draw(t, "day"), rapid.SampledFrom([]RevokedWhy{WhyRetired, WhyCompromised}).Draw(t, "why")}
			}
			var err error
			if list, err = list.Add(e); err != nil {
				t.Fatal(err)
			}
		}
		file, err := list.Format()
		if err != nil {
			t.Fatal(err)
		}
		back, err := ParseTrust(file, "t")
		if err != nil || len(back) != len(list) || len(list) > 0 && !reflect.DeepEqual(back, list) {
			t.Fatalf("%v\n%s\n%+v\n%+v", err, file, list, back)
		}
	})
}

func TestValidAt(t *testing.T) {
	at := func(text string) int64 {
		when, err := time.Parse(time.RFC3339, text)
		if err != nil {
			t.Fatal(err)
		}
		return when.Unix()
	}
	bounded := Trusted{From: dayPointer(t, "2026-01-15"), Until: dayPointer(t, "2029-12-31")}
	with := func(e Trusted, from string, why RevokedWhy) Trusted {
		e.Revoked = &Revocation{day(t, from), why}
		return e
	}
	for _, c := range []struct {
		entry Trusted
		when  string
		want  Validity
	}{
		{Trusted{}, "1970-01-01T00:00:00Z", Valid},
		{bounded, "2026-01-14T23:59:59Z", NotYet},
		{bounded, "2026-01-15T00:00:00Z", Valid},
		{bounded, "2029-12-31T23:59:59Z", Valid},
		{bounded, "2030-01-01T00:00:00Z", Retired},
		{with(bounded, "2028-03-01", WhyRetired), "2028-02-29T23:59:59Z", Valid},
		{with(bounded, "2028-03-01", WhyRetired), "2028-03-01T00:00:00Z", Retired},
		{with(bounded, "2028-03-01", WhyCompromised), "2028-02-29T23:59:59Z", Valid},
		{with(bounded, "2028-03-01", WhyCompromised), "2028-03-01T00:00:00Z", Revoked},
		{with(bounded, "2028-03-01", WhyCompromised), "2031-01-01T00:00:00Z", Revoked},
		{with(bounded, "2031-03-01", WhyCompromised), "2030-06-01T00:00:00Z", Retired},
		{with(bounded, "2020-01-01", WhyCompromised), "2021-01-01T00:00:00Z", Revoked},
		{with(bounded, "2020-01-01", ""), "2021-01-01T00:00:00Z", Revoked},
		{Trusted{Until: dayPointer(t, "1969-12-31")}, "1969-12-31T23:59:59Z", Valid},
		{Trusted{Until: dayPointer(t, "1969-12-31")}, "1970-01-01T00:00:00Z", Retired},
	} {
		if got := c.entry.ValidAt(at(c.when)); got != c.want {
			t.Errorf("%s: %v, want %v", c.when, got, c.want)
		}
	}
	if got := bounded.ValidAt(math.MaxInt64); got != Retired {
		t.Errorf("the last second: %v", got)
	}
	if got := bounded.ValidAt(math.MinInt64); got != NotYet {
		t.Errorf("the first second: %v", got)
	}
	if Validity(0).String() != "unknown" || Valid.String() != "valid" || Revoked.String() != "revoked" {
		t.Error("names of the answers")
	}
}

func TestAddRemoveLookup(t *testing.T) {
	list := exampleList(t)
	a, b := list[0], list[1]
	if got, ok := list.Lookup(b.Key); !ok || got.Name != b.Name {
		t.Error("Lookup of a known key")
	}
	if _, ok := list.Lookup(testKey(t, 7).Public()); ok {
		t.Error("Lookup of an unknown key")
	}
	if _, err := list.Add(Trusted{Name: "Other", Key: a.Key}); err == nil || err.Error() != "key "+a.Key.Fingerprint()+` is already trusted, as "Ellery Slip Boatyard": remove it first` {
		t.Errorf("same key: %v", err)
	}
	for _, bad := range []Trusted{
		{Name: "", Key: testKey(t, 7).Public()},
		{Name: "x\x1b", Key: testKey(t, 7).Public()},
		{Name: "x\xff", Key: testKey(t, 7).Public()},
		{Name: "x", Key: PublicKey{1}},
		{Name: "x", Key: testKey(t, 7).Public(), Note: "\u202e"},
		{Name: "x", Key: testKey(t, 7).Public(), From: dayPointer(t, "2026-02-02"), Until: dayPointer(t, "2026-02-01")},
		{Name: "x", Key: testKey(t, 7).Public(), From: new(Day(math.MaxInt32))},
		{Name: "x", Key: testKey(t, 7).Public(), Revoked: &Revocation{}},
	} {
		if _, err := list.Add(bad); err == nil {
			t.Errorf("%+v is taken", bad)
		}
		if _, err := (TrustList{bad}).Format(); err == nil {
			t.Errorf("%+v is written", bad)
		}
	}
	if _, err := (TrustList{a, a}).Format(); err == nil {
		t.Error("the same key twice is written")
	}
	again, err := list.Add(Trusted{Name: a.Name, Key: testKey(t, 7).Public()})
	if err != nil || len(again) != 3 || len(list) != 2 {
		t.Fatal(err)
	}
	if _, _, err := again.Remove(a.Name); err == nil || !strings.HasPrefix(err.Error(), "several keys are trusted as") {
		t.Errorf("a name twice: %v", err)
	}
	if _, _, err := again.Remove("nobody\x1b"); err == nil || strings.Contains(err.Error(), "\x1b") {
		t.Errorf("nobody: %v", err)
	}
	rest, gone, err := again.Remove(a.Key.Fingerprint())
	if err != nil || gone.Key != a.Key || len(rest) != 2 || rest[0].Key != b.Key || again[0].Key != a.Key {
		t.Errorf("by fingerprint: %v %v", gone, err)
	}
	if rest, gone, err = list.Remove(b.Name); err != nil || gone.Key != b.Key || len(rest) != 1 {
		t.Errorf("by name: %v %v", gone, err)
	}
}

func TestDay(t *testing.T) {
	for text, want := range map[string]Day{"1970-01-01": 0, "1969-12-31": -1, "2026-05-04": 20577, "0000-01-01": -719528, "9999-12-31": 2932896} {
		if got := day(t, text); got != want || got.String() != text {
			t.Errorf("%s: %d, %s", text, got, got)
		}
	}
	for _, text := range []string{"", "2026-5-4", "2026-02-29", "2026-05-04T00:00:00Z", " 2026-05-04", "20260504", "2026-00-01"} {
		if d, err := ParseDay(text); err == nil {
			t.Errorf("%q is read as %s", text, d)
		}
	}
}

func FuzzParseTrust(f *testing.F) {
	f.Add([]byte(exampleFile))
	f.Add([]byte("- &a {name: *a}\n--- !x\n? [a]\n: b"))
	f.Add([]byte("[[[[[[{{{{"))
	f.Add([]byte("- name: x\n  key: y\n  revoked: {from: , why: }\n"))
	f.Fuzz(func(t *testing.T, b []byte) {
		list, err := ParseTrust(b, "t")
		if err != nil {
			var faults Faults
			if !errors.As(err, &faults) || len(faults) == 0 {
				t.Errorf("error of another kind: %v", err)
			}
			return
		}
		file, err := list.Format()
		if err != nil {
			t.Fatalf("%q is read and cannot be written: %v", b, err)
		}
		if again, err := ParseTrust(file, "t"); err != nil || len(again) != len(list) || len(list) > 0 && !reflect.DeepEqual(again, list) {
			t.Errorf("%q comes back as another list: %v", b, err)
		}
	})
}

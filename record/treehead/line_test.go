package treehead_test

import (
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/treehead"
)

const (
	someHash  = "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d"
	otherHash = "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125"
	emptyHash = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"

	headLine = "hourseal-head 1 2026-11-02T16:30:00Z 37 " + someHash
	pathLine = "hourseal-path 1 2026-11-02T16:30:00Z 3 2 " + someHash + " " + otherHash
)

func TestLines(t *testing.T) {
	line, err := treehead.ParseLine(headLine)
	// 2026-11-02T16:30:00Z: 20759 days and 59400 s, by date -d @1793637000.
	want := treehead.Line{Time: 1_793_637_000, Chains: 37, Root: treehead.Hash(unhex(t, someHash))}
	if err != nil || line != want || line.String() != headLine {
		t.Errorf("%v, %v", line, err)
	}
	path, err := treehead.ParsePath(pathLine)
	wantPath := treehead.Path{Time: 1_793_637_000, Chains: 3, Index: 2, Last: record.ID(unhex(t, someHash)),
		Hashes: []treehead.Hash{treehead.Hash(unhex(t, otherHash))}}
	if err != nil || !reflect.DeepEqual(path, wantPath) || path.String() != pathLine {
		t.Errorf("%v, %v", path, err)
	}
	// As mail programs break and indent it.
	for _, text := range []string{"  " + headLine + "\r\n", strings.ReplaceAll(headLine, " ", "\n  ")} {
		if got, err := treehead.ParseLine(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	if got, err := treehead.ParseLine("hourseal-head 1 2026-11-02T16:30:00Z 0 " + emptyHash); err != nil || got != treehead.New(want.Time, nil).Line() {
		t.Errorf("empty: %v, %v", got, err)
	}
}

func TestWrongLines(t *testing.T) {
	for _, c := range []struct{ text, says string }{
		{"", "no ledger line: one begins with hourseal-head"},
		{"see below", "no ledger line"},
		{"HOURSEAL-HEAD 1 2026-11-02T16:30:00Z 37 " + someHash, "no ledger line"},
		{"hourseal-head", "version"},
		{strings.Replace(headLine, " 1 ", " 2 ", 1), "this program reads version 1 only"},
		{strings.TrimSuffix(headLine, someHash), "copy the whole line"},
		{headLine[:len(headLine)-1], "root: 64 small hexadecimal digits"},
		{headLine + "0", "root: 64 small"},
		{strings.ToUpper(headLine[:20]) + headLine[20:], "no ledger line"},
		{strings.Replace(headLine, someHash, strings.ToUpper(someHash), 1), "root: 64 small"},
		{strings.Replace(headLine, "6e34", "6g34", 1), "root: 64 small"},
		{headLine + " more", "end: 1 fields too many"},
		{strings.Replace(headLine, "37", "037", 1), `chains: "037" is no number`},
		{strings.Replace(headLine, "37", "-1", 1), `chains: "-1"`},
		{strings.Replace(headLine, "37", "1000001", 1), "no number from 0 to 1000000"},
		{strings.Replace(headLine, "37", "0", 1), "hash of nothing"},
		{strings.Replace(headLine, "T16:30:00Z", "", 1), `time: "2026-11-02" is no time`},
		{strings.Replace(headLine, "T16:30:00Z", "T16:30:00+00:00", 1), "time"},
		{strings.Replace(headLine, "T16:30:00Z", "T16:30:00.5Z", 1), "time"},
		{strings.Replace(headLine, "2026-11-02", "2026-02-30", 1), "time"},
		{strings.Replace(headLine, "2026", "1969", 1), "time"},
		{strings.Replace(headLine, "2026", "2200", 1), "time"},
		{pathLine, "a path, where the line itself is wanted"},
		{pathLine + " 00", "hash 2: 64 small"},
	} {
		if got, err := treehead.ParseLine(c.text); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %v, %v; want %q", c.text, got, err, c.says)
		}
	}
	for _, c := range []struct{ text, says string }{
		{headLine, "no ledger line: one begins with hourseal-path"},
		{strings.TrimSuffix(pathLine, " "+otherHash), "hashes: 0 of them, place 2 of 3 has 1"},
		{pathLine + " " + someHash, "hashes: 2 of them"},
		{strings.Replace(pathLine, " 3 2 ", " 3 3 ", 1), "place"},
		{strings.Replace(pathLine, " 3 2 ", " 0 0 ", 1), "chains"},
		{strings.Replace(pathLine, " 3 2 ", " 3 1 ", 1), "place 1 of 3 has 2"},
		{strings.Replace(pathLine, someHash, "6e34", 1), "record: 64 small"},
		{"hourseal-path 1 2026-11-02T16:30:00Z 1 0", "copy the whole line"},
	} {
		if got, err := treehead.ParsePath(c.text); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %v, %v; want %q", c.text, got, err, c.says)
		}
	}
}

// TestThereAndBack: what is written is read again as it was.
func TestThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ids := drawIDs(t)
		tree := treehead.New(rapid.Int64Range(0, 7_258_118_399).Draw(t, "time"), ids)
		line := tree.Line()
		if got, err := treehead.ParseLine(line.String()); err != nil || got != line {
			t.Fatalf("%s: %v, %v", line, got, err)
		}
		for _, id := range ids {
			path, _ := tree.Path(id)
			got, err := treehead.ParsePath(path.String())
			if err != nil || !got.LeadsTo(line) || got.String() != path.String() {
				t.Fatalf("%s: %v, %v", path, got, err)
			}
		}
	})
}

// FuzzLines: nothing panics, and what is read is written again but for white space.
func FuzzLines(f *testing.F) {
	for _, text := range []string{headLine, pathLine, "", "hourseal-head 1", "hourseal-path 1 2026-11-02T16:30:00Z 1 0 " + someHash,
		"hourseal-head 1 2026-11-02T16:30:00Z 0 " + emptyHash, strings.Repeat("hourseal-path ", 9)} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		plain := strings.Join(strings.Fields(text), " ")
		line, err := treehead.ParseLine(text)
		if err == nil && line.String() != plain {
			t.Errorf("%q is read as %q", text, line)
		}
		path, err := treehead.ParsePath(text)
		if err == nil && path.String() != plain {
			t.Errorf("%q is read as %q", text, path)
		}
		path.LeadsTo(line)
	})
}

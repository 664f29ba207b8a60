package verifytest_test

import (
	"bytes"
	"encoding/hex"
	"fmt"
	"reflect"
	"testing"

	"hourseal/record"
	"hourseal/render"
	"hourseal/verify"
	"hourseal/verify/source"
	"hourseal/verify/verifytest"
)

// makePage is what the program hands to verify.Run.
func makePage(r *record.Record, envelope []byte, texts []string, keys []byte) ([]byte, error) {
	page, err := render.Report(r, envelope, texts, keys)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", verify.ErrNotRendered, err)
	}
	return page, nil
}

// answer is what the kit says of a result.
type answer struct {
	Verdict      verify.Verdict
	Exit         int
	Source       source.Kind
	Page         source.PageResult
	Record, List string
	Signer       string
	Sentence     string
}

func answerOf(r verify.Result) answer {
	a := answer{Verdict: r.Verdict, Exit: r.Verdict.ExitCode(), Source: r.Source, Sentence: r.Sentence()}
	if r.Page != nil {
		a.Page = r.Page.Result
	}
	if r.Verdict.HidesContent() {
		return a
	}
	a.Signer = r.Signer.Key.Fingerprint()
	if id := hex.EncodeToString(r.Record[:]); r.List != nil {
		a.List = id
	} else {
		a.Record = id
	}
	return a
}

// TestLibrary runs package verify over the committed files, once with the pages made
// again and once without.
func TestLibrary(t *testing.T) {
	cases, err := verifytest.Load(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range cases {
		t.Run(c.Name, func(t *testing.T) {
			reader, err := c.Reader()
			if err != nil {
				t.Fatal(err)
			}
			want := answer{c.Verdict, c.Exit, c.Source, c.Page, c.Record, c.List, c.Signer, c.Sentence}
			without := want
			without.Verdict, without.Exit = c.VerdictWithoutPage, exits[c.VerdictWithoutPage]
			without.Page, without.Sentence = c.PageWithoutPage, c.SentenceWithoutPage
			for name, run := range map[string]struct {
				render verify.RenderFunc
				want   answer
			}{"with pages": {makePage, want}, "without pages": {nil, without}} {
				result := verify.Run(c.Input, reader, run.render)
				got := answerOf(result)
				if c.Source == "" { // not judged: formats do not say what stands there
					got.Source = ""
				}
				if got != run.want {
					t.Errorf("%s: %s\n got %+v\nwant %+v\n (%v, page %+v)", name, c.What, got, run.want, result.Err, result.Page)
				}
			}
		})
	}
}

// TestRecordFileIsNotKept: whoever reads many record files reads each into the room of
// the one before, and what was found in that must not change with it.
func TestRecordFileIsNotKept(t *testing.T) {
	cases, err := verifytest.Load(folder)
	if err != nil {
		t.Fatal(err)
	}
	tried := 0
	for _, c := range cases {
		reader, err := c.Reader()
		if err != nil {
			t.Fatal(err)
		}
		data := bytes.Clone(c.Input)
		result := verify.Run(data, reader, nil)
		if result.Source != source.KindRecord {
			continue
		}
		tried++
		for i := range data {
			data[i] ^= 0xFF
		}
		if want := verify.Run(c.Input, reader, nil); !reflect.DeepEqual(result, want) {
			t.Errorf("%s: changed with its input:\n%+v\nwant\n%+v", c.Name, result, want)
		}
	}
	if tried < 50 {
		t.Errorf("%d record files in the kit", tried)
	}
}

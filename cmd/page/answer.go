package main

import (
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"hourseal/render/plain"
	"hourseal/sign"
	"hourseal/verify"
)

// answerJSON is the answer about one input.
type answerJSON struct {
	Verdict  verify.Verdict    `json:"verdict"`
	Sentence string            `json:"sentence"`
	Sections []sectionJSON     `json:"sections"`
	Content  *contentJSON      `json:"content"`
	Record   string            `json:"record"`
	Faults   map[string]string `json:"faults"`
}

type sectionJSON struct {
	Heading string   `json:"heading"`
	Lines   []string `json:"lines"`
}

type contentJSON struct {
	Heading string `json:"heading"`
	Shown   bool   `json:"shown"`
}

type blocksJSON struct {
	Blocks []blockJSON `json:"blocks"`
}

type blockJSON struct {
	Heading string     `json:"heading"`
	Rows    [][]string `json:"rows"`
	Headed  bool       `json:"headed"`
	Text    string     `json:"text"`
}

// answer answers a reader about an input.
func (s *session) answer(number int, asked string) (answerJSON, error) {
	in, ok := s.inputs[number]
	if !ok {
		return answerJSON{}, fmt.Errorf("nothing was read under number %d", number)
	}
	reader, faults, err := readerOf(asked)
	if err != nil {
		return answerJSON{}, err
	}
	result := verify.RunFound(in.data, in.found, in.err, reader, renderPage)
	out := answerJSON{
		Verdict: result.Verdict, Sentence: clean(result.Sentence()), Faults: faults,
		Sections: []sectionJSON{}, Content: contentOf(result),
	}
	for _, section := range result.Sections(verify.OnPage) {
		out.Sections = append(out.Sections, sectionJSON{clean(section.Heading), cleanAll(section.Lines)})
	}
	if result.Record != nil {
		out.Record = hex.EncodeToString(result.Record[:])
	}
	return out, nil
}

// contentOf says whether there is something to show that was signed.
func contentOf(result verify.Result) *contentJSON {
	if result.Verdict.HidesContent() {
		return nil
	}
	return &contentJSON{clean(result.ContentHeading()), result.Verdict.ShowsContent()}
}

// content is what was signed, in rows; none of what is altered or unreadable. It
// stands apart from the answer, so that its sentence need not wait for the rows.
func (s *session) content(number int) (blocksJSON, error) {
	in, ok := s.inputs[number]
	if !ok {
		return blocksJSON{}, fmt.Errorf("nothing was read under number %d", number)
	}
	out := blocksJSON{Blocks: []blockJSON{}}
	result := verify.RunFound(in.data, in.found, in.err, verify.Reader{}, renderPage)
	var blocks []plain.Block
	switch {
	case result.Verdict.HidesContent():
	case result.List != nil:
		blocks = plain.List(result.List)
	default:
		blocks = plain.Record(result.Signed)
	}
	for _, b := range blocks {
		block := blockJSON{Heading: clean(b.Heading), Headed: b.Headed, Text: clean(b.Text), Rows: [][]string{}}
		for _, row := range b.Rows {
			block.Rows = append(block.Rows, cleanAll(row))
		}
		out.Blocks = append(out.Blocks, block)
	}
	return out, nil
}

type keyJSON struct {
	Key         string `json:"key"`
	Fingerprint string `json:"fingerprint"`
	NameFault   string `json:"name_fault"`
}

// keyOf reads a line of a .pub file, and says why a name cannot be given to its key:
// a trust list does not take it, or a key of the page's own has it. A list may give
// several keys one name, but who is talked into adding a key here must not get the
// answer that the page's own keys give.
func keyOf(line, name, taken string) (keyJSON, error) {
	var names []string
	if err := json.Unmarshal([]byte(taken), &names); err != nil {
		return keyJSON{}, fmt.Errorf("names taken: %w", err)
	}
	key, _, err := sign.ParsePublicKey([]byte(line))
	if err != nil {
		return keyJSON{}, err
	}
	out := keyJSON{Key: key.OpenSSHLine(""), Fingerprint: key.Fingerprint()}
	if _, err := (sign.TrustList{}).Add(sign.Trusted{Name: name, Key: key}); err != nil {
		out.NameFault = clean(err.Error())
	} else if slices.ContainsFunc(names, func(known string) bool { return sameName(known, name) }) {
		out.NameFault = "a key that this page was made with has it, and the two could not be told apart; give it one that says where you have this key from"
	}
	return out, nil
}

// sameName says whether two names are one but for white space and the case of letters.
func sameName(a, b string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(a), ""), strings.Join(strings.Fields(b), ""))
}

func cleanAll(texts []string) []string {
	out := make([]string, len(texts))
	for i, text := range texts {
		out[i] = clean(text)
	}
	return out
}

var clean = plain.Printable

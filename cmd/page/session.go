package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"slices"

	"hourseal/sign"
	"hourseal/sign/qrtext"
	"hourseal/verify/source"
	"hourseal/verify/source/picture"
)

// session is what the page has read and not forgotten. It belongs to one
// goroutine.
type session struct {
	inputs map[int]input
	last   int
}

// input is what reading gave.
type input struct {
	data  []byte // of what may be key statements, which verify tells from a record
	found source.Found
	err   error
}

func newSession() *session { return &session{inputs: map[int]input{}} }

// maxInputs bounds what is kept: what the page shows and what it reads next, at most
// 40 files each (inputs.js), and some frames of a camera.
const maxInputs = 100

// readJSON is the outcome of reading.
type readJSON struct {
	Input   int          `json:"input"`
	Kind    source.Kind  `json:"kind"`
	Texts   []string     `json:"texts"`
	Missing *missingJSON `json:"missing"`
	Picture bool         `json:"picture"`
	Error   string       `json:"error"`
}

type missingJSON struct {
	Record uint32 `json:"record"`
	Count  int    `json:"count"`
	Parts  []int  `json:"parts"`
}

// read reads a file.
func (s *session) read(data []byte) (readJSON, error) {
	found, err := source.Read(data)
	kept := input{found: found, err: err}
	if (found.Kind == source.KindRecord || found.Kind == "") && len(data) <= sign.MaxStatementsBytes {
		kept.data = data
	}
	if found.Kind == source.KindPDF {
		kept.found = withoutFile(found)
	}
	return s.keep(kept)
}

// withoutFile is what was found in a PDF and keeps none of its bytes, which may be many
// and are not compared here (renderPage). Of PDF it says only whether there is one.
func withoutFile(found source.Found) source.Found {
	found.Envelope, found.Keys = bytes.Clone(found.Envelope), bytes.Clone(found.Keys)
	if found.PDF != nil {
		found.PDF = new(source.PDF)
	}
	return found
}

// unread stands for a file of which the page could hand over nothing: the reason, and
// what to do instead.
func (s *session) unread(reason, hint string) (readJSON, error) {
	return s.keep(input{err: &source.InputError{Kind: source.ErrUnreadable, Reason: reason, Hint: hint}})
}

// readTexts reads texts of codes, of which some may be parts.
func (s *session) readTexts(kind, texts string) (readJSON, error) {
	var list []string
	if err := json.Unmarshal([]byte(texts), &list); err != nil {
		return readJSON{}, fmt.Errorf("texts: %w", err)
	}
	if !slices.Contains([]source.Kind{source.KindText, source.KindImage, source.KindPDF}, source.Kind(kind)) {
		return readJSON{}, fmt.Errorf("texts of no kind: %q", kind)
	}
	found, err := source.FromTexts(source.Kind(kind), list)
	return s.keep(input{found: found, err: err})
}

// readPixels reads a picture of width times height pixels, 4 bytes each: red,
// green, blue and how opaque it is, over white.
func (s *session) readPixels(rgba []byte, width, height int, thorough bool) (readJSON, error) {
	if width <= 0 || height <= 0 || width > len(rgba) || height > len(rgba) || len(rgba) != 4*width*height {
		return readJSON{}, fmt.Errorf("%d bytes are no picture of %d by %d pixels", len(rgba), width, height)
	}
	effort := picture.Quick
	if thorough {
		effort = picture.Thorough
	}
	img := &image.NRGBA{Pix: rgba, Stride: 4 * width, Rect: image.Rect(0, 0, width, height)}
	found, err := source.ReadPixels(img, effort)
	return s.keep(input{found: found, err: err})
}

func (s *session) keep(in input) (readJSON, error) {
	if len(s.inputs) == maxInputs {
		return readJSON{}, errors.New("too much was opened: load the page again")
	}
	s.last++
	s.inputs[s.last] = in
	out := readJSON{Input: s.last, Kind: in.found.Kind, Texts: in.found.Texts, Picture: errors.Is(in.err, source.ErrImage)}
	if in.err != nil {
		out.Error = clean(in.err.Error())
		if wrong, ok := errors.AsType[*source.InputError](in.err); ok && len(wrong.Texts) > 0 {
			out.Texts = wrong.Texts
		}
		out.Missing = missingOf(in.err)
	}
	if out.Texts == nil {
		out.Texts = []string{}
	}
	return out, nil
}

// missingOf says which parts of a record there are none of; nil where that is
// not what is wrong.
func missingOf(err error) *missingJSON {
	missing, ok := errors.AsType[*qrtext.MissingPartsError](err)
	if !ok {
		return nil
	}
	return &missingJSON{missing.Record, missing.Count, slices.Clone(missing.Missing)}
}

func (s *session) forget(number int) { delete(s.inputs, number) }

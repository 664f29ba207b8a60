package record

import (
	"bytes"
	"errors"
	"fmt"
	"sync"

	"github.com/fxamacker/cbor/v2"
)

// ErrNotCanonical is returned for bytes that hold a record in another form than
// the one Encode writes.
var ErrNotCanonical = errors.New("record is not in its canonical form")

// encMode is the only encoder: core-deterministic, nil containers as empty ones
// so that null has no encoding of its own.
var encMode = func() cbor.UserBufferEncMode {
	options := cbor.CoreDetEncOptions()
	options.NilContainers = cbor.NilContainerAsEmpty
	mode, err := options.UserBufferEncMode()
	if err != nil {
		panic("record: encoder: " + err.Error()) // fixed options, tested
	}
	return mode
}()

// Encode returns the canonical bytes of a record, after checking every value.
func Encode(r *Record) ([]byte, error) {
	if err := r.Validate(); err != nil {
		return nil, err
	}
	data, err := encMode.Marshal(withoutUsualTitles(r))
	if err != nil {
		return nil, fmt.Errorf("encode record: %w", err)
	}
	if len(data) > MaxBytes {
		return nil, fmt.Errorf("record takes %d bytes, at most %d fit: shorten notes and reasons", len(data), MaxBytes)
	}
	return data, nil
}

// Decode reads a record from its canonical bytes and refuses all others. What
// reads (reader.go) and what encodes again for the comparison share no code, so
// that a fault in one of them shows as a refusal.
func Decode(data []byte) (*Record, error) { return decode(data, sameBytes) }

// DecodeAgain is Decode for bytes that Decode has taken before, as a signature
// over their digest tells: all of it but the comparison, which is a third of the
// work.
func DecodeAgain(data []byte) (*Record, error) {
	return decode(data, func(*Record, []byte) error { return nil })
}

func decode(data []byte, compare func(*Record, []byte) error) (*Record, error) {
	if len(data) > MaxBytes {
		return nil, fmt.Errorf("record takes %d bytes, at most %d are allowed", len(data), MaxBytes)
	}
	r, err := read(data)
	if err != nil {
		return nil, err
	}
	if err := compare(r, data); err != nil {
		return nil, err
	}
	if !fillUsualTitles(r) {
		return nil, ErrNotCanonical
	}
	if err := r.Validate(); err != nil {
		return nil, err
	}
	return r, nil
}

// buffers holds what records are encoded into for the comparison.
var buffers = sync.Pool{New: func() any { return new(bytes.Buffer) }}

// sameBytes encodes what was decoded from data, and wants data.
func sameBytes(r *Record, data []byte) error {
	again := buffers.Get().(*bytes.Buffer)
	defer buffers.Put(again)
	again.Reset()
	if err := encMode.MarshalToBuffer(r, again); err != nil {
		return fmt.Errorf("encode record: %w", err)
	}
	if !bytes.Equal(again.Bytes(), data) {
		return ErrNotCanonical
	}
	return nil
}

// SameJob says whether two records are of the same job sheet: all that the sheet
// states is equal, whatever was found, planned and numbered since.
func SameJob(a, b *Record) bool {
	first, errA := encMode.Marshal(sheetPart(a))
	second, errB := encMode.Marshal(sheetPart(b))
	return errA == nil && errB == nil && bytes.Equal(first, second)
}

// sheetPart keeps of a record what its job sheet states.
func sheetPart(r *Record) *Record {
	part := &Record{
		Kind: r.Kind, Subject: r.Subject, Job: r.Job, By: r.By,
		OtherWork: r.OtherWork, ToppedUp: r.ToppedUp, Waste: r.Waste, Parts: r.Parts,
		LeakCheck: r.LeakCheck, Notes: r.Notes, Files: r.Files,
	}
	// What a meter reads is stated; the hours in total are worked out.
	part.Job.Hours, part.Job.Meter.Offset = 0, 0
	if r.Job.Meter.Reading == nil {
		part.Job.Hours = r.Job.Hours
	}
	part.Machine.Serial = r.Machine.Serial
	for _, t := range r.Tasks {
		if t.Result != 0 {
			part.Tasks = append(part.Tasks, Task{ID: t.ID, Result: t.Result, Answer: t.Answer,
				LookAgain: t.LookAgain, Readings: t.Readings, DoneBy: t.DoneBy})
		}
	}
	for _, f := range r.Fluids {
		f.AtUpper, f.BetweenMarks, f.FilterHolds, f.Holds, f.Density = 0, 0, 0, 0, 0
		f.Balance = nil // worked out
		part.Fluids = append(part.Fluids, f)
	}
	return part
}

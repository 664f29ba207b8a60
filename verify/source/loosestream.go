package source

import "bytes"

// stream returns the bytes of the stream after a dictionary that ends at next, and
// where they end. /Length is believed where "endstream" follows it.
func (f *looseFile) stream(d looseDict, next int) (content []byte, end int, ok bool) {
	from, end, ok := f.streamByLength(d, next)
	if !ok {
		return nil, next, false
	}
	if end >= 0 {
		return f.data[from:end], end, true
	}
	if end = f.nextEnd(from); end < 0 {
		return f.data[from:], len(f.data), true
	}
	return f.data[from:end], end, true
}

// shortStream is stream for one that may be anywhere and is no longer than a
// dictionary may be; nil where it is. What is gone over counts as read.
func (f *looseFile) shortStream(d looseDict, next int) []byte {
	from, end, ok := f.streamByLength(d, next)
	if !ok || f.read >= maxLooseInput {
		return nil
	}
	near := f.data[from:min(len(f.data), from+maxLooseBytes)]
	if end < 0 {
		f.read += len(near)
		end = from + bytes.Index(near, []byte("endstream"))
	}
	if end < from || end-from > len(near) {
		return nil
	}
	return f.data[from:end]
}

// streamByLength finds where the bytes of a stream start, and where they end if its
// /Length can be believed; end is -1 if it cannot.
func (f *looseFile) streamByLength(d looseDict, next int) (from, end int, ok bool) {
	s := looseScanner{data: f.data, pos: next}
	if s.space(); !s.literal("stream") {
		return 0, -1, false
	}
	if from = afterLineEnd(f.data, s.pos); from < 0 {
		return 0, -1, false
	}
	length, ok := f.natural(d["Length"])
	if !ok || length > len(f.data)-from {
		return from, -1, true
	}
	s.pos = from + length
	for s.pos < len(f.data) && s.pos <= from+length+2 && isPDFSpace(f.data[s.pos]) {
		s.pos++
	}
	if !s.literal("endstream") {
		return from, -1, true
	}
	return from, from + length, true
}

// nextEnd finds the next "endstream". Only [looseFile.pictures] comes here, with ever
// larger offsets, so that it goes over the file once; streams elsewhere in the file are
// found by shortStream.
func (f *looseFile) nextEnd(from int) int {
	if f.endFrom <= from && from <= f.endAt {
		return f.endAt
	}
	i := bytes.Index(f.data[from:], []byte("endstream"))
	f.endFrom, f.endAt = from, from+i
	if i < 0 {
		f.endAt = len(f.data)
		return -1
	}
	return f.endAt
}

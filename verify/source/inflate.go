package source

import (
	"bytes"
	"compress/zlib"
	"errors"
	"io"
	"sync"
)

// zlibHeader is the first byte of every zlib stream that a report may hold:
// deflate with a 32 KiB window (RFC 1950 section 2.2). Go's reader takes any
// window size and uses 32 KiB all the same; other readers hold a stream to the
// smaller window it names, and would show another page.
const zlibHeader = 0x78

// presetDictionary is FDICT in the second byte. Go's reader accepts the
// dictionary of no bytes; other readers stop and ask for one.
const presetDictionary = 0x20

var (
	errStreamHeader   = errors.New("a deflated stream with an unusual header")
	errStreamLong     = errors.New("a deflated stream is longer than the limit when inflated")
	errStreamLeftOver = errors.New("bytes are left over after a deflated stream")
	errStreamBroken   = errors.New("a deflated stream is damaged")
)

// inflater is a zlib reader with its input and scratch space, kept for reuse:
// a new one costs more than inflating a typical stream.
type inflater struct {
	in      bytes.Reader
	zlib    io.ReadCloser // nil until the first use
	scratch [16 << 10]byte
}

var inflaters = sync.Pool{New: func() any { return new(inflater) }}

func (f *inflater) reset(deflated []byte) error {
	f.in.Reset(deflated)
	if f.zlib == nil {
		r, err := zlib.NewReader(&f.in)
		if err != nil {
			return err
		}
		f.zlib = r
		return nil
	}
	return f.zlib.(zlib.Resetter).Reset(&f.in, nil)
}

func (f *inflater) release() {
	f.in.Reset(nil) // so that the pool does not keep a file alive
	inflaters.Put(f)
}

// inflate hands the content of a strict zlib stream to each, piece by piece,
// and returns its length in bytes. At most limit bytes are inflated.
func inflate(deflated []byte, limit int, each func([]byte)) (int, error) {
	if len(deflated) < 2 || deflated[0] != zlibHeader || deflated[1]&presetDictionary != 0 {
		return 0, errStreamHeader
	}
	f := inflaters.Get().(*inflater)
	defer f.release()
	if err := f.reset(deflated); err != nil {
		return 0, errStreamHeader
	}
	total := 0
	for {
		n, err := f.zlib.Read(f.scratch[:])
		if total += n; total > limit {
			return total, errStreamLong
		}
		if each != nil && n > 0 {
			each(f.scratch[:n])
		}
		switch {
		case err == io.EOF && f.in.Len() != 0:
			return total, errStreamLeftOver
		case err == io.EOF:
			return total, nil
		case err != nil:
			return total, errStreamBroken
		}
	}
}

// buffers holds inflated content that is looked at and dropped.
var buffers = sync.Pool{New: func() any { return new(bytes.Buffer) }}

// keepBufferBytes is the largest buffer worth keeping: one odd file must not
// hold its memory for the rest of a long run.
const keepBufferBytes = 1 << 20

func getBuffer() *bytes.Buffer { return buffers.Get().(*bytes.Buffer) }

func putBuffer(b *bytes.Buffer) {
	if b.Cap() <= keepBufferBytes {
		b.Reset()
		buffers.Put(b)
	}
}

package source_test

import (
	"bytes"
	"runtime"
	"sync"
	"testing"

	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

func BenchmarkReadPDF(b *testing.B) {
	pdf := reportOf(b, record(b, "Gannet", 700)).bytes(b)
	b.SetBytes(int64(len(pdf)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := source.ReadPDF(pdf); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadText(b *testing.B) {
	text := []byte(textsOf(b, record(b, "Gannet", 700))[0])
	b.ReportAllocs()
	for b.Loop() {
		if _, err := source.Read(text); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCompareRedeflated(b *testing.B) {
	fresh := reportOf(b, record(b, "Gannet", 700)).bytes(b)
	received := must(b)(sourcetest.Redeflate(fresh, 9))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := source.Compare(received, fresh); err != nil {
			b.Fatal(err)
		}
	}
}

// Memory in use stays where it is over many files, good and bad.
func TestMemoryDoesNotGrow(t *testing.T) {
	pdf := reportOf(t, record(t, "Gannet", 600)).bytes(t)
	broken := pdf[:len(pdf)-1]
	use := func(files int) uint64 {
		for i := range files {
			data := pdf
			if i%4 == 0 {
				data = broken
			}
			if _, err := source.Read(data); err != nil {
				t.Fatal(err)
			}
		}
		runtime.GC()
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapInuse
	}
	first := use(50)
	if after := use(400); after > first+4<<20 {
		t.Errorf("%d KiB in use after 50 files, %d KiB after 450", first>>10, after>>10)
	}
}

// Readers share their inflaters and buffers; with the race detector on, this
// shows that they do not share more.
func TestReadFromManyGoroutines(t *testing.T) {
	one, two := record(t, "Gannet", 600), record(t, "Gannet, 412.6 h", 600)
	files := map[string][]byte{}
	for _, envelope := range [][]byte{one, two} {
		pdf := reportOf(t, envelope).bytes(t)
		files[string(pdf)] = envelope
		files[string(pdf[:len(pdf)-1])] = envelope
		files[textsOf(t, envelope)[0]] = envelope
	}
	var readers sync.WaitGroup
	for range 4 {
		for data, envelope := range files {
			readers.Go(func() {
				for range 5 {
					found, err := source.Read([]byte(data))
					if err != nil || !bytes.Equal(found.Envelope, envelope) {
						t.Errorf("got another record, or %v", err)
					}
				}
			})
		}
	}
	readers.Wait()
}

package main

import (
	"fmt"
	"io/fs"
	"iter"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"

	"hourseal/record"
	"hourseal/record/ledger"
	"hourseal/render"
	"hourseal/verify"
	"hourseal/verify/source"
)

// answer is the result for one input.
type answer struct {
	input  string
	result verify.Result
	err    error    // the input could not be had at all
	of     []string // the inputs that it is put together of; nil for one
}

// resultsAhead is how many results a worker may have ready before they are
// printed, so that they do not pile up behind a slow reader.
const resultsAhead = 16

// verifyAll answers for the inputs in their order, several at a time, with how many of
// them are done. Inputs that hold parts of one record are answered together, where the
// last of them stands, or at the end where one is missing or damaged. A picture that was not named
// itself, but lay in a folder, is passed over where no code of ours is in it; a PDF without
// a record waits until all else is answered, and is passed over where a record names it.
func (p *program) verifyAll(named, inputs []string, reader verify.Reader) iter.Seq2[int, answer] {
	return func(yield func(int, answer) bool) {
		done, parts := 0, joiner{reader: reader}
		var passed, waiting []answer
		beside := map[string]bool{} // where the files lie that records name
		for a := range inOrder(inputs, func(input *string) (answer, error) { return p.verifyOne(*input, reader), nil }) {
			if passesOver(a) && !slices.Contains(named, a.input) {
				passed = append(passed, a)
			} else if waits(a) && !slices.Contains(named, a.input) {
				waiting = append(waiting, a)
				continue
			} else if together, whole := parts.add(a); whole {
				together.notePlaces(beside)
				if !yield(done, together) {
					return
				}
			}
			done++
		}
		rest, attached := parts.rest(), []string(nil)
		for _, a := range waiting {
			if beside[filepath.Clean(a.input)] {
				attached = append(attached, a.input)
			} else {
				rest = append(rest, a)
			}
			done++
		}
		if len(attached) > 0 {
			p.tell("Passed over, as a record here names them among its files: %s.", firstOf(attached))
		}
		if len(passed) == len(inputs) {
			rest = passed
		} else {
			p.tellPassed(passed)
		}
		for _, a := range rest {
			if !yield(done, a) {
				return
			}
		}
	}
}

// A long list is worked on in pieces of so many: handing each over by itself costs more
// than a tenth of a record's verification.
const (
	longList    = 1000
	pieceOf     = 16
	piecesAhead = 4
)

// inOrder works on the members of a list several at a time, and yields what came of
// each in their order.
func inOrder[A, B any](list []A, work func(*A) (B, error)) iter.Seq2[B, error] {
	type outcome struct {
		b   B
		err error
	}
	return func(yield func(B, error) bool) {
		workers, size := min(runtime.GOMAXPROCS(0), len(list)), 1
		if len(list) >= longList {
			size = pieceOf
		}
		slots := make([]chan []outcome, (len(list)+size-1)/size)
		ahead := workers * max(piecesAhead, resultsAhead/size)
		ready := make(chan struct{}, ahead)
		yielded := make(chan []outcome, ahead) // their room is for the next ones
		todo, stop := make(chan int), make(chan struct{})
		defer close(stop)
		for i := range slots {
			slots[i] = make(chan []outcome, 1)
		}
		for range workers {
			go func() {
				for i := range todo {
					piece := list[i*size : min((i+1)*size, len(list))]
					var done []outcome
					select {
					case done = <-yielded:
					default:
						done = make([]outcome, size)
					}
					done = done[:len(piece)]
					for j := range piece {
						done[j].b, done[j].err = work(&piece[j])
					}
					slots[i] <- done
				}
			}()
		}
		go func() {
			defer close(todo)
			for i := range slots {
				select {
				case ready <- struct{}{}:
				case <-stop:
					return
				}
				todo <- i
			}
		}()
		for i := range slots {
			done := <-slots[i]
			slots[i] = nil
			<-ready
			for _, o := range done {
				if !yield(o.b, o.err) {
					return
				}
			}
			select {
			case yielded <- done:
			default:
			}
		}
	}
}

func (p *program) verifyOne(input string, reader verify.Reader) answer {
	if isQRText(input) {
		return answer{input: input, result: verify.Run([]byte(input), reader, renderPage)}
	}
	room := inputRooms.Get().(*[]byte)
	data, err := p.readInputInto(*room, input)
	if err != nil {
		err = missing(input, err)
		if _, folder := os.ReadDir(input); folder == nil {
			err = usageError{"no reports (.pdf), records (.cose) or pictures (.jpg, .png) in " + input, "name a file, or a folder that holds some"}
		}
		return answer{input: input, result: verify.Result{Verdict: verify.Unreadable, Err: err}, err: err}
	}
	result := verify.Run(data, reader, renderPage)
	if result.Source == source.KindRecord && result.Signed != nil { // which keeps nothing of it: see verify.Run
		*room = data
		inputRooms.Put(room)
	}
	return answer{input: input, result: result}
}

// inputRooms are what record files are read into, one after the other: of a stack of
// them, fresh memory for each would cost more than reading them.
var inputRooms = sync.Pool{New: func() any { return new([]byte) }}

// isQRText says whether an argument is the text of a code itself.
func isQRText(input string) bool {
	lower := strings.ToLower(input[:min(len(input), 9)])
	return strings.HasPrefix(lower, "https://") || strings.HasPrefix(lower, "hourseal:")
}

// shortName is an input's name in a list: a code's text is a thousand digits.
func shortName(input string) string {
	const kept = 60 // characters: the address and what tells two texts apart
	if isQRText(input) && len(input) > kept {
		return input[:kept] + "..."
	}
	return input
}

// renderPage makes a report again, for the comparison.
func renderPage(r *record.Record, envelope []byte, texts []string, keys []byte) ([]byte, error) {
	page, err := render.Report(r, envelope, texts, keys)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", verify.ErrNotRendered, err)
	}
	return page, nil
}

// verifiable lists the inputs; folders stand for the reports, records and pictures in
// them, whatever their depth. What cannot be read stays in the list, to be answered in
// its turn.
func verifiable(names []string) []string {
	var inputs []string
	for _, name := range names {
		if info, err := os.Stat(name); err == nil && info.IsDir() {
			if found := filesIn(name); len(found) > 0 {
				inputs = append(inputs, found...)
				continue
			}
		}
		inputs = append(inputs, name)
	}
	return inputs
}

// verifiableKinds are the endings of files that a folder is searched for. Pictures that
// are not read are among them, so that they can be named.
var verifiableKinds = []string{".pdf", ".cose", ".jpg", ".jpeg", ".png", ".heic", ".heif", ".avif", ".webp", ".tif", ".tiff", ".gif", ".bmp"}

// filesIn lists the reports, records and pictures in a folder; a folder in it that
// cannot be read is listed too. The files that go with a record of a yard lie in a folder
// beside it and are no inputs; a record among them would be.
func filesIn(folder string) []string {
	var found []string
	var dir string // the last folder that was asked about
	ofRecord := false
	_ = filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error { // its errors are all in the list
		if err != nil {
			found = append(found, path)
			return nil
		}
		ending := strings.ToLower(filepath.Ext(path))
		if e.IsDir() || !slices.Contains(verifiableKinds, ending) {
			return nil
		}
		if parent := filepath.Dir(path); parent != dir {
			dir, ofRecord = parent, ledger.HoldsFilesOf(parent)
		}
		if !ofRecord || ending == ".cose" {
			found = append(found, path)
		}
		return nil
	})
	return found
}

package verify_test

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/render"
	"hourseal/sign"
	"hourseal/sign/qrtext"
	"hourseal/verify"
)

// yardName is the name that the reader of these tests gave the yard's key.
const yardName = "Ellery Slip Boatyard"

func must[T any](t testing.TB) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// keyOf is a key that everybody knows, made from a seed of 32 times b.
func keyOf(t testing.TB, b byte) *sign.PrivateKey {
	t.Helper()
	return must[*sign.PrivateKey](t)(sign.NewKey(bytes.NewReader(bytes.Repeat([]byte{b}, 32))))
}

const (
	yardSeed     = 7
	strangerSeed = 9
)

// issued is a sealed record with all that a reader may be given of it.
type issued struct {
	record   *record.Record
	payload  []byte
	envelope []byte
	texts    []string
}

func seal(t testing.TB, r *record.Record, seed byte) issued {
	t.Helper()
	payload := must[[]byte](t)(record.Encode(r))
	envelope := sealBytes(t, payload, seed)
	return issued{r, payload, envelope, must[[]string](t)(qrtext.Encode(envelope, r.PageHost))}
}

// sealBytes signs whatever it is given, as a careless or hostile signer would.
func sealBytes(t testing.TB, payload []byte, seed byte) []byte {
	t.Helper()
	return must[[]byte](t)(sign.Seal(sign.RecordV1, payload, keyOf(t, seed)))
}

func (i issued) text() []byte { return []byte(strings.Join(i.texts, "\n")) }

func (i issued) pdf(t testing.TB) []byte {
	t.Helper()
	return must[[]byte](t)(render.Report(i.record, i.envelope, i.texts, nil))
}

// example is the Gannet's port engine, signed by the yard.
func example(t testing.TB) issued { return seal(t, recordtest.Example(), yardSeed) }

// shortest has the least on its page, so that it is looked at quickest.
func shortest(t testing.TB) issued { return seal(t, recordtest.Shortest(), yardSeed) }

// otherExample is the Gannet's starboard engine of the same day.
func otherExample(t testing.TB) issued {
	r := recordtest.Example()
	r.Machine.ID, r.Machine.Position, r.Machine.Serial, r.Job.Number = "gannet-starboard", "starboard", "0045121", "J-2218"
	return seal(t, r, yardSeed)
}

// buyer trusts the yard's key and nobody else.
func buyer(t testing.TB) verify.Reader {
	return verify.Reader{Trust: sign.TrustList{{Name: yardName, Key: keyOf(t, yardSeed).Public()}}}
}

// makePage is what the program hands to Run.
func makePage(r *record.Record, envelope []byte, texts []string, keys []byte) ([]byte, error) {
	page, err := render.Report(r, envelope, texts, keys)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", verify.ErrNotRendered, err)
	}
	return page, nil
}

// makePageOnce keeps what makePage gave, for tests that look at thousands of
// copies: a report is a pure function of its arguments.
func makePageOnce() verify.RenderFunc {
	var lock sync.Mutex
	made := map[[32]byte]func() ([]byte, error){}
	return func(r *record.Record, envelope []byte, texts []string, keys []byte) ([]byte, error) {
		of := sha256.Sum256(fmt.Appendf(nil, "%x %q %x", envelope, texts, keys))
		lock.Lock()
		once, ok := made[of]
		if !ok {
			once = sync.OnceValues(func() ([]byte, error) { return makePage(r, envelope, texts, keys) })
			made[of] = once
		}
		lock.Unlock()
		return once()
	}
}

// wants holds a result to a verdict and its sentence.
func wants(t *testing.T, got verify.Result, verdict verify.Verdict, sentence string) {
	t.Helper()
	if got.Verdict != verdict {
		t.Errorf("verdict %s, want %s (%v, page %+v)", got.Verdict, verdict, got.Err, got.Page)
		return
	}
	if got.Sentence() != sentence {
		t.Errorf("sentence\n     %s\nwant %s", got.Sentence(), sentence)
	}
	if got.Verdict.HidesContent() != (got.Signed == nil) {
		t.Errorf("verdict %s, record given: %t", got.Verdict, got.Signed != nil)
	}
}

// allWords is everything that a reader is shown or told of a result on the terminal.
func allWords(r verify.Result) []string { return wordsOn(r, verify.Terminal) }

func wordsOnPage(r verify.Result) []string { return wordsOn(r, verify.OnPage) }

func wordsOn(r verify.Result, on verify.Surface) []string {
	said := []string{r.Sentence()}
	for _, section := range r.Sections(on) {
		said = append(said, section.Heading)
		said = append(said, section.Lines...)
	}
	return said
}

func hours(t testing.TB, text string) *quantity.Hours {
	return new(must[quantity.Hours](t)(quantity.ParseHours(text)))
}

func date(t testing.TB, text string) *quantity.Date {
	return new(must[quantity.Date](t)(quantity.ParseDate(text)))
}

func onDisk(t testing.TB, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// long says whether the run takes the time for every offset.
func long() bool { return os.Getenv("HOURSEAL_LONG") == "1" }

var errNoPage = errors.New("no page here")

// noPage is a reader's program that cannot draw.
func noPage(*record.Record, []byte, []string, []byte) ([]byte, error) { return nil, errNoPage }

// textsOf are the QR texts of any envelope, under the example's host.
func textsOf(t testing.TB, envelope []byte) []string {
	t.Helper()
	return must[[]string](t)(qrtext.Encode(envelope, recordtest.Example().PageHost))
}

package qrtext

import (
	"bytes"
	"compress/flate"
	"crypto/sha256"
	"encoding/hex"
	"flag"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var update = flag.Bool("update", false, "write dictionary-1.bin anew: never once texts were printed with it")

// What the package comment says of dictionary 1: its SHA-256 and its length.
const (
	dictionary1Digest = "58f720553f2978695f5b28df1194e4e85d2bc14bcbfddb90b75d2873975d8c35"
	dictionary1Bytes  = 7303
)

// taskKinds are their numbers in a record, task-kind in record.cddl.
var taskKinds = map[string]byte{"replace": 1, "inspect": 2, "clean": 3, "adjust": 4, "test": 5}

// madeOf puts a dictionary together from the lines of its source, whose head
// says what they mean.
func madeOf(source string) ([]byte, error) {
	var made []byte
	for i, line := range strings.Split(source, "\n") {
		pieces, err := splitPieces(line)
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", i+1, err)
		}
		if len(pieces) > 0 && pieces[0] == "task" {
			made, err = appendTask(made, pieces[1:])
		} else {
			made, err = appendPieces(made, pieces)
		}
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", i+1, err)
		}
	}
	return made, nil
}

// splitPieces cuts a line at its spaces, those in quotes apart. A comment has no
// pieces.
func splitPieces(line string) ([]string, error) {
	var pieces []string
	for line = strings.TrimSpace(line); line != "" && line[0] != '#'; line = strings.TrimLeft(line, " ") {
		end := strings.IndexByte(line, ' ')
		if quote := line[0]; quote == '"' || quote == '\'' {
			if end = strings.IndexByte(line[1:], quote); end < 0 {
				return nil, fmt.Errorf("no second %c", quote)
			}
			end += 2
		} else if end < 0 {
			end = len(line)
		}
		pieces = append(pieces, line[:end])
		line = line[end:]
	}
	return pieces, nil
}

func appendPieces(dst []byte, pieces []string) ([]byte, error) {
	for _, piece := range pieces {
		switch piece[0] {
		case '"':
			dst = appendText(dst, piece[1:len(piece)-1])
		case '\'':
			dst = append(dst, piece[1:len(piece)-1]...)
		default:
			b, err := hex.DecodeString(piece)
			if err != nil || len(b) != 1 {
				return nil, fmt.Errorf("%q is no byte", piece)
			}
			dst = append(dst, b[0])
		}
	}
	return dst, nil
}

// appendTask appends the members 1 to 5 of a task, and the key of the one after.
func appendTask(dst []byte, pieces []string) ([]byte, error) {
	if len(pieces) < 6 || len(pieces) > 7 || taskKinds[pieces[1]] == 0 {
		return nil, fmt.Errorf("task %q", pieces)
	}
	var figures [4]uint64
	for i := range figures {
		n, err := strconv.ParseUint(pieces[2+i], 10, 32)
		if err != nil {
			return nil, err
		}
		figures[i] = n
	}
	const perHour = 100
	dst = appendText(append(dst, 0x01), pieces[0])
	if len(pieces) == 7 {
		dst = appendText(append(dst, 0x02), strings.Trim(pieces[6], `"`))
	}
	dst = append(dst, 0x03, taskKinds[pieces[1]])
	dst = appendPair(append(dst, 0x04), figures[0]*perHour, figures[1])
	dst = appendPair(append(dst, 0x05), figures[2]*perHour, figures[3])
	return append(dst, 0x06, 0xa2, 0x01, 0x19), nil
}

// appendPair appends a map of the keys 1 and 2, without those that are 0.
func appendPair(dst []byte, first, second uint64) []byte {
	at := len(dst)
	dst = append(dst, 0xa0)
	for i, n := range []uint64{first, second} {
		if n != 0 {
			dst[at]++
			dst = appendHead(append(dst, byte(i+1)), 0, n)
		}
	}
	return dst
}

func appendText(dst []byte, text string) []byte {
	return append(appendHead(dst, 3, uint64(len(text))), text...)
}

// appendHead appends the head of an item, RFC 8949 section 3.
func appendHead(dst []byte, major byte, n uint64) []byte {
	switch {
	case n < 24:
		return append(dst, major<<5|byte(n))
	case n < 1<<8:
		return append(dst, major<<5|24, byte(n))
	case n < 1<<16:
		return append(dst, major<<5|25, byte(n>>8), byte(n))
	default:
		return append(dst, major<<5|26, byte(n>>24), byte(n>>16), byte(n>>8), byte(n))
	}
}

// TestDictionaryIsMade: the dictionary is what its source says, and its digest
// and length are those of the package comment.
func TestDictionaryIsMade(t *testing.T) {
	source, err := os.ReadFile("dictionary-1.txt")
	if err != nil {
		t.Fatal(err)
	}
	made, err := madeOf(string(source))
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile("dictionary-1.bin", made, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if !bytes.Equal(made, dictionary1) {
		t.Error("dictionary-1.bin is not what dictionary-1.txt makes")
	}
	digest := sha256.Sum256(dictionary1)
	if got := hex.EncodeToString(digest[:]); got != dictionary1Digest || len(dictionary1) != dictionary1Bytes {
		t.Errorf("%d bytes with SHA-256 %s", len(dictionary1), got)
	}
	comment, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(comment), dictionary1Digest) || !strings.Contains(string(comment), "7,303 of them") {
		t.Error("the package comment gives another digest or length")
	}
}

// TestDictionaryNotations: what the head of the source says of a line.
func TestDictionaryNotations(t *testing.T) {
	for line, want := range map[string]string{
		"":                              "",
		"# 'a'":                         "",
		"'a b' 00 ff":                   "61206200ff",
		`"a" "it's"`:                    "61616469742773",
		`"abcdefghijklmnopqrstuvwxy"`:   "78196162636465666768696a6b6c6d6e6f707172737475767778" + "79",
		"task oil replace 200 12 20 30": "01636f696c030104a201194e20020c05a2011907d002181e06a20119",
		`task a test 0 84 0 0 "b"`:      "0161610261620305" + "04a1021854" + "05a0" + "06a20119",
	} {
		got, err := madeOf(line)
		if err != nil || hex.EncodeToString(got) != want {
			t.Errorf("%s: %x, %v", line, got, err)
		}
	}
	for _, line := range []string{"'a", `"a`, "0", "zz", "task", "task a b 1 1 1 1", "task a test 1 1 x 1", "task a test 1 1 1"} {
		if got, err := madeOf(line); err == nil {
			t.Errorf("%s: %x", line, got)
		}
	}
}

// TestDictionaryHelps: an envelope of what the dictionary has deflates to next to
// nothing, and nothing grows by more than what it costs to say that there is one.
func TestDictionaryHelps(t *testing.T) {
	if got := len(mustDeflate(t, dictionary1)); got > 80 {
		t.Errorf("the dictionary itself deflates to %d bytes", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SliceOfN(rapid.Byte(), 1, 2000).Draw(t, "bytes")
		with, err := deflate(deflateLevel, b)
		if err != nil {
			t.Fatal(err)
		}
		if most := len(b) + 5; len(with) > most { // one stored block
			t.Errorf("%d bytes take %d", len(b), len(with))
		}
	})
}

// TestWithoutEmptyEnd: at every level the stream is four or five bytes shorter
// than package flate's own, which are those of its empty last block.
func TestWithoutEmptyEnd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.OneOf(
			rapid.SliceOfN(rapid.Byte(), 1, 300),
			rapid.Map(rapid.IntRange(1, 9000), recordLike),
			rapid.Map(rapid.IntRange(1, MaxInflatedBytes), func(n int) []byte { return make([]byte, n) }),
		).Draw(t, "bytes")
		level := rapid.IntRange(-2, 9).Draw(t, "level")
		var whole bytes.Buffer
		w, err := flate.NewWriterDict(&whole, level, dictionary1)
		if err != nil {
			t.Fatal(err)
		}
		w.Write(b)
		w.Close()
		got, err := deflate(level, b)
		if err != nil {
			t.Fatal(err)
		}
		if less := whole.Len() - len(got); less != 4 && less != 5 {
			t.Errorf("level %d, %d bytes: %d and %d", level, len(b), whole.Len(), len(got))
		}
		// Cut by a byte more it is no whole stream: nothing unused is left.
		source := bytes.NewReader(got[:len(got)-1])
		if _, err := io.ReadAll(flate.NewReaderDict(source, dictionary1)); err != io.ErrUnexpectedEOF {
			t.Errorf("level %d: a byte less gives %v", level, err)
		}
	})
}

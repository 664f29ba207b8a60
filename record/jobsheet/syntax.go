package jobsheet

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"
)

// parseYAML gives the documents of a text as trees of nodes.
func parseYAML(text []byte) (documents []*yaml.Node, err error) {
	// The library panics where it meets an event that it did not expect of
	// itself; a file that a person wrote must not end the program.
	defer func() {
		if recover() != nil {
			documents, err = nil, errors.New("unreadable")
		}
	}()
	decoder := yaml.NewDecoder(bytes.NewReader(text))
	for {
		document := new(yaml.Node)
		switch err := decoder.Decode(document); {
		case errors.Is(err, io.EOF):
			return documents, nil
		case err != nil:
			return nil, err
		}
		documents = append(documents, document)
	}
}

// syntaxHint says what a person did to meet one of the library's errors.
type syntaxHint struct {
	problem string // how the library's words begin
	hint    string
}

var syntaxHints = []syntaxHint{
	{"mapping values are not allowed", `a second colon in one line, or a line set in too far: put a text that holds a colon in quotes, or line the key up with its neighbours`},
	{"could not find expected ':'", `a key without a colon and a space after it: write it as "hours: 812.6"`},
	{"did not find expected key", `a line that begins in the wrong column, or text after a closing quote or brace: line the key up with its neighbours, and put the whole text in one pair of quotes`},
	{"did not find expected ',' or '}'", `a brace that is not closed, or a comma left out: write it as "{ id: engine-oil, result: done }"`},
	{"did not find expected ',' or ']'", `a bracket that is not closed, or a comma left out: write it as "[5 L, 4.3 L]"`},
	{"did not find expected '-' indicator", `a line among the entries of a list that begins with no hyphen: write "- " before an entry, or line the key up with the list's key`},
	{"block sequence entries are not allowed", `a hyphen after the key on one line: begin the list on the next line`},
	{"did not find expected node content", `a comma, brace or bracket with nothing before it: take it out, or write what is missing`},
	{"found character that cannot start", "a text that begins with @, % or a back quote: put it in quotes"},
	{"found unexpected end of stream", `a quote that is opened here and never closed: close it`},
	{"found unexpected document indicator", `a quote that is opened here and never closed: close it`},
	{"found unknown escape character", `a backslash between double quotes: write single quotes around the text`},
	{"did not find expected hexdecimal number", `a backslash between double quotes: write single quotes around the text`},
	{"unknown anchor", `a text that begins with "*": put it in quotes`},
	{"did not find expected alphabetic", `a text that begins with "*" or "&": put it in quotes`},
	{"found undefined tag", `a text that begins with "!": put it in quotes`},
	{"did not find expected tag", `a text that begins with "!": put it in quotes`},
	{"did not find expected comment or line break", `text on the same line after "|" or ">": begin it on the next line`},
	{"did not find expected <document start>", `a line further left than the first one, or text after "...": line the keys up, and take "..." out`},
	{"found incompatible YAML document", `a line that begins with "%": take it out`},
}

// syntaxFault is the one fault of a text that is not YAML.
func syntaxFault(file string, text []byte, err error) Fault {
	problem := strings.TrimPrefix(err.Error(), "yaml: ")
	reported := 0
	if rest, ok := strings.CutPrefix(problem, "line "); ok {
		number, after, _ := strings.Cut(rest, ": ")
		if n, err := strconv.Atoi(number); err == nil {
			reported, problem = n, after
		}
	}
	message := fmt.Sprintf("cannot be read, here or just above (%s): line the keys up, and put odd text in quotes", problem)
	for _, h := range syntaxHints {
		if strings.HasPrefix(problem, h.problem) {
			message = "cannot be read, here or just above: " + h.hint
			break
		}
	}
	return Fault{File: file, Pos: Pos{Line: syntaxLine(text, reported)}, Message: message}
}

// maxSyntaxWork bounds the bytes parsed in search of the line of a fault.
const maxSyntaxWork = 1 << 20

// syntaxLine finds the line after the longest run of whole lines that is YAML
// by itself. The library's own line is often one too low, and for a quote
// or brace that is never closed it may be the file's last: it stands in only
// when the search takes too long.
func syntaxLine(text []byte, reported int) int {
	work := 0
	end := len(bytes.TrimRight(text, "\n"))
	for end > 0 {
		end = bytes.LastIndexByte(text[:end], '\n') + 1
		if work += end; work > maxSyntaxWork {
			return reported
		}
		if _, err := parseYAML(text[:end]); err == nil {
			return bytes.Count(text[:end], []byte("\n")) + 1
		}
		end = max(0, end-1)
	}
	return 1
}

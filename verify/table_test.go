package verify_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// tableFiles hold all words of an answer.
var tableFiles = []string{"words.go", "wordlines.go"}

// literals are the string literals below a node that are no imports.
func literals(t *testing.T, n ast.Node) []string {
	t.Helper()
	var found []string
	ast.Inspect(n, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec:
			return false
		case *ast.BasicLit:
			if n.Kind == token.STRING {
				found = append(found, must[string](t)(strconv.Unquote(n.Value)))
			}
		}
		return true
	})
	return found
}

func parsed(t *testing.T, name string) *ast.File {
	t.Helper()
	return must[*ast.File](t)(parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution))
}

var place = regexp.MustCompile(`\{[^{}]*\}`)

func places(text string) []string {
	found := place.FindAllString(text, -1)
	slices.Sort(found)
	return slices.Compact(found)
}

// aCommand is said on the terminal only: the program's name and its flags.
func aCommand(text string) bool {
	return strings.Contains(text, "hourseal ") || strings.Contains(text, "--")
}

// TestWordsOfThePage: of what to do there is a wording for each surface, about the same
// things, and nothing that is said on the page is a command.
func TestWordsOfThePage(t *testing.T) {
	choices, same := 0, 0
	for _, name := range tableFiles {
		file := parsed(t, name)
		of := map[ast.Node]bool{} // what belongs to a choice
		ast.Inspect(file, func(n ast.Node) bool {
			literal, ok := n.(*ast.CompositeLit)
			if !ok {
				return true
			}
			if kind, ok := literal.Type.(*ast.Ident); !ok || kind.Name != "choice" {
				return true
			}
			choices++
			for _, part := range literal.Elts {
				of[part] = true
			}
			both := literals(t, literal)
			if len(both) != 2 || both[0] == "" || both[1] == "" || both[0] == both[1] {
				t.Fatalf("%s: %q is no choice", name, both)
			}
			if aCommand(both[1]) {
				t.Errorf("a command on the page: %s", both[1])
			}
			if !slices.Equal(places(both[0]), places(both[1])) {
				t.Errorf("other places: %s\n%s", both[0], both[1])
			}
			return true
		})
		ast.Inspect(file, func(n ast.Node) bool {
			if n == nil || of[n] {
				return false
			}
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				same++
				if aCommand(lit.Value) {
					t.Errorf("a command on every surface: %s", lit.Value)
				}
			}
			return true
		})
	}
	if choices < 8 || same < 100 {
		t.Errorf("%d choices and %d lines that are the same everywhere: the table was not read", choices, same)
	}
	t.Logf("%d choices, %d lines that are the same everywhere", choices, same)
}

// TestAllWordsAreInTheTable: code chooses a row, and has no words of its own.
func TestAllWordsAreInTheTable(t *testing.T) {
	words := regexp.MustCompile(`\pL{2,}[,.:;]? \pL{2,}`)
	for _, name := range must[[]string](t)(filepath.Glob("*.go")) {
		if strings.HasSuffix(name, "_test.go") || slices.Contains(tableFiles, name) {
			continue
		}
		for _, text := range literals(t, parsed(t, name)) {
			if words.MatchString(text) {
				t.Errorf("%s: %q", name, text)
			}
		}
	}
}

// TestEveryPlaceIsFilled: in no answer is a place left open, on either surface.
func TestEveryPlaceIsFilled(t *testing.T) {
	for _, c := range goldenCases(t) {
		for _, text := range append(allWords(c.got), wordsOnPage(c.got)...) {
			if strings.ContainsAny(text, "{}") {
				t.Errorf("%s: %s", c.name, text)
			}
		}
		for _, text := range wordsOnPage(c.got) {
			if aCommand(text) {
				t.Errorf("%s: a command on the page: %s", c.name, text)
			}
		}
	}
}

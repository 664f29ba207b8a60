package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"io/fs"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const module = "hourseal/"

// mayImport says which packages of ours each package may import. Data flows one
// way: what is not in a row is not to be imported. The interval types of
// record/schedule are part of a record; packages that see records see those, and
// their quantities.
var mayImport = map[string][]string{
	"record/quantity":                 {},
	"record/fluid":                    {"record/quantity"},
	"record/schedule":                 {"record/quantity"},
	"record":                          {"record/quantity", "record/schedule"},
	"record/recordtest":               {"record", "record/quantity", "record/schedule"},
	"record/recordtest/outside":       {},
	"record/logbook":                  {"record", "record/quantity", "record/schedule"},
	"record/jobsheet":                 {"record", "record/quantity", "record/schedule", "record/fluid", "record/logbook"},
	"record/check":                    {"record", "record/quantity", "record/schedule", "record/fluid", "record/logbook", "record/jobsheet"},
	"record/plan":                     {"record", "record/quantity", "record/schedule", "record/fluid", "record/logbook", "record/jobsheet"},
	"record/dialogue":                 {},
	"record/closeout":                 {"record", "record/quantity", "record/schedule", "record/fluid", "record/logbook", "record/jobsheet", "record/plan", "record/check", "record/dialogue", "record/fluid"},
	"record/enrol":                    {"record", "record/fluid", "record/quantity", "record/schedule", "record/jobsheet", "record/check", "record/dialogue"},
	"record/waste":                    {"record", "record/quantity", "record/fluid", "record/logbook"},
	"record/list":                     {"record", "record/quantity"},
	"record/treehead":                 {"record"},
	"record/ledger":                   {"record", "record/treehead", "sign"},
	"sign":                            {},
	"sign/qrtext":                     {},
	"templates":                       {},
	"render":                          {"record", "record/quantity", "record/schedule", "sign", "sign/qrtext", "templates", "render/sheet", "render/words"},
	"render/sheet":                    {},
	"render/sheet/sheettest":          {"record/recordtest/outside"},
	"render/words":                    {"record", "record/quantity", "record/schedule", "templates"},
	"render/plain":                    {"record", "record/fluid", "record/list", "record/quantity", "record/schedule", "render/words", "sign"},
	"render/calendar":                 {"record", "record/quantity"},
	"render/worksheet":                {"record", "record/quantity", "record/schedule", "record/jobsheet", "record/plan", "templates", "render/sheet", "render/words"},
	"render/webpage":                  {"sign", "templates"},
	"render/statement":                {"render", "render/sheet", "render/words", "verify/history", "record", "record/quantity", "record/schedule", "sign"},
	"verify":                          {"record", "record/list", "record/quantity", "record/schedule", "sign", "verify/source"},
	"verify/source":                   {"sign", "sign/qrtext", "verify/source/picture"},
	"verify/source/picture":           {},
	"verify/source/picture/phototest": {},
	"verify/source/sourcetest":        {},
	"verify/verifytest":               {"verify", "verify/source", "record/quantity", "sign"},
	"verify/history":                  {"verify", "record", "record/list", "record/logbook", "record/quantity", "record/schedule", "record/treehead", "sign"},
	"verify/history/historytest":      {"verify", "verify/history", "record", "record/list", "record/logbook", "record/quantity", "record/schedule", "record/treehead", "sign"},
}

// commands may import everything but each other and what is for tests.
func isCommand(name string) bool { return strings.HasPrefix(name, "cmd/") }

// isForTests says whether a package is only there for the tests of others.
func isForTests(name string) bool {
	return strings.HasSuffix(name, "test") || name == module+"record/recordtest/outside"
}

type goPackage struct {
	ImportPath  string
	Imports     []string
	TestImports []string // of the tests inside the package; those outside it may import what they like
}

func goPackages(t *testing.T) []goPackage {
	t.Helper()
	cmd := exec.Command("go", "list", "-e", "-json=ImportPath,Imports,TestImports", "./...")
	cmd.Dir = "../.."
	var faults bytes.Buffer
	cmd.Stderr = &faults
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, faults.String())
	}
	var packages []goPackage
	for decoder := json.NewDecoder(bytes.NewReader(out)); ; {
		var p goPackage
		if err := decoder.Decode(&p); errors.Is(err, io.EOF) {
			return packages
		} else if err != nil {
			t.Fatal(err)
		}
		packages = append(packages, p)
	}
}

// TestImportDirections holds the directions of the table.
func TestImportDirections(t *testing.T) {
	packages := goPackages(t)
	if len(packages) < 15 {
		t.Fatalf("go list names %d packages only", len(packages))
	}
	for _, p := range packages {
		name := strings.TrimPrefix(p.ImportPath, module)
		if _, known := mayImport[name]; !known && !isCommand(name) {
			t.Errorf("%s has no row in the table of imports", name)
			continue
		}
		for _, imported := range p.Imports {
			if fault := wrongImport(name, imported); fault != "" {
				t.Error(fault)
			}
		}
		for _, imported := range p.TestImports {
			if fault := wrongImport(name, imported); fault != "" && !isForTests(imported) {
				t.Errorf("in a test: %s", fault)
			}
		}
	}
}

// wrongImport says what is wrong with an import, "" if nothing is.
func wrongImport(name, imported string) string {
	target, ours := strings.CutPrefix(imported, module)
	switch {
	case !ours:
		return ""
	case isCommand(target), isForTests(target):
		return name + " imports " + target + ", which is not to be imported"
	case isCommand(name), slices.Contains(mayImport[name], target):
		return ""
	default:
		return name + " imports " + target
	}
}

func TestWrongImport(t *testing.T) {
	for _, c := range []struct {
		name, imported string
		wrong          bool
	}{
		{"record", "fmt", false},
		{"record", "hourseal/record/quantity", false},
		{"record", "hourseal/record/check", true},
		{"verify", "hourseal/render", true},
		{"render", "hourseal/record/ledger", true},
		{"sign", "hourseal/record", true},
		{"cmd/hourseal", "hourseal/record/check", false},
		{"cmd/page", "hourseal/cmd/hourseal", true},
		{"cmd/hourseal", "hourseal/record/recordtest", true},
	} {
		if got := wrongImport(c.name, c.imported); (got != "") != c.wrong {
			t.Errorf("%s, %s: %q", c.name, c.imported, got)
		}
	}
}

// TestTableGoesOneWay: following the rows never leads back to a package.
func TestTableGoesOneWay(t *testing.T) {
	var follow func(path []string)
	follow = func(path []string) {
		for _, next := range mayImport[path[len(path)-1]] {
			if slices.Contains(path, next) {
				t.Errorf("%s leads back to %s", strings.Join(path, ", "), next)
				continue
			}
			if _, known := mayImport[next]; !known {
				t.Errorf("%s has no row", next)
			}
			follow(append(slices.Clone(path), next))
		}
	}
	for name := range mayImport {
		follow([]string{name})
	}
}

// sourceFile is one parsed file outside the tests.
type sourceFile struct {
	folder string // from the module's root, with slashes
	file   *ast.File
	places *token.FileSet
}

func (s sourceFile) at(n ast.Node) string { return s.places.Position(n.Pos()).String() }

func sources(t *testing.T) []sourceFile {
	t.Helper()
	var all []sourceFile
	err := filepath.WalkDir("../..", func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && strings.HasPrefix(entry.Name(), ".") && len(entry.Name()) > 2 {
			return filepath.SkipDir
		}
		if entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		places := token.NewFileSet()
		file, err := parser.ParseFile(places, path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		folder, err := filepath.Rel("../..", filepath.Dir(path))
		all = append(all, sourceFile{filepath.ToSlash(folder), file, places})
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// TestOnlyCheckMakesCheckedJobs: what the ledger signs is a record.Checked, and
// only package check has a type that is one, by a method of its own or by one of
// a type within it.
func TestOnlyCheckMakesCheckedJobs(t *testing.T) {
	found := 0
	for _, s := range sources(t) {
		ast.Inspect(s.file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncDecl:
				if n.Recv != nil && n.Name.Name == "CheckedRecord" {
					found++
					if s.folder != "record/check" {
						t.Errorf("%s: %s has a method CheckedRecord", s.at(n), s.folder)
					}
				}
			case *ast.StructType:
				for _, f := range n.Fields.List {
					if name := lastName(f.Type); len(f.Names) == 0 && (name == "Checked" || name == "Passed") && s.folder != "record/check" {
						t.Errorf("%s: a checked job within another type", s.at(f))
					}
				}
			}
			return true
		})
	}
	if found != 1 {
		t.Errorf("%d methods CheckedRecord, want one", found)
	}
}

// lastName is the name of a type without its package and pointer.
func lastName(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.StarExpr:
		return lastName(e.X)
	case *ast.SelectorExpr:
		return e.Sel.Name
	case *ast.Ident:
		return e.Name
	default:
		return ""
	}
}

// TestOnlyLedgerSealsRecords: sign.Seal is called for records by the ledger and
// nobody else. Elsewhere it may be called for another purpose by that purpose's
// name, and not be handed on.
func TestOnlyLedgerSealsRecords(t *testing.T) {
	found := 0
	for _, s := range sources(t) {
		if isForTests(module + s.folder) { // which no program can import
			continue
		}
		name := importedAs(s.file, module+"sign")
		if name == "." {
			t.Errorf("%s: sign is imported without its name", s.at(s.file))
		}
		called := map[ast.Expr]bool{}
		ast.Inspect(s.file, func(n ast.Node) bool {
			if call, ok := n.(*ast.CallExpr); ok && isNamed(call.Fun, name, "Seal") && len(call.Args) > 0 {
				purpose, named := call.Args[0].(*ast.SelectorExpr)
				forRecords := !named || !isNamed(purpose, name, purpose.Sel.Name) || purpose.Sel.Name == "RecordV1"
				if forRecords && s.folder == "record/ledger" {
					found++
				} else if forRecords {
					t.Errorf("%s: a record is sealed outside the ledger", s.at(call))
				}
				called[call.Fun] = true
			}
			if call, ok := n.(*ast.CallExpr); ok && s.folder == "sign" && lastName(call.Fun) == "Seal" {
				t.Errorf("%s: package sign seals by itself", s.at(call))
			}
			if e, ok := n.(*ast.SelectorExpr); ok && isNamed(e, name, "Seal") && !called[e] {
				t.Errorf("%s: sign.Seal is handed on", s.at(e))
			}
			return true
		})
	}
	if found != 1 {
		t.Errorf("the ledger seals records in %d places, want one", found)
	}
}

// importedAs is the name that a file has for a package, "" when it does not
// import it.
func importedAs(file *ast.File, path string) string {
	for _, spec := range file.Imports {
		if strings.Trim(spec.Path.Value, `"`) != path {
			continue
		}
		if spec.Name != nil {
			return spec.Name.Name
		}
		return path[strings.LastIndex(path, "/")+1:]
	}
	return ""
}

// isNamed says whether an expression is that name of that package.
func isNamed(e ast.Expr, pkg, name string) bool {
	s, ok := e.(*ast.SelectorExpr)
	if !ok || pkg == "" || s.Sel.Name != name {
		return false
	}
	x, ok := s.X.(*ast.Ident)
	return ok && x.Name == pkg
}

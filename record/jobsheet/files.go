package jobsheet

import (
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
)

// files reads the names of the files that go with the record.
func files(f fields) []string {
	names := several(f, "files", record.MaxFiles, fileName)
	for i, name := range names {
		alike := func(other string) bool { return strings.EqualFold(name, other) }
		if first := slices.IndexFunc(names[:i], alike); first >= 0 && name != "" { // "": a fault already
			f.values["files"].fail("%s and %s differ in capitals only, and some systems keep one of the two: write another name", names[first], name)
		}
	}
	return names
}

func fileName(s string) (string, error) { return s, CheckFileName(s) }

// deviceNames are those that Windows keeps for devices, whatever ending they have:
// "Naming Files, Paths, and Namespaces" of its documentation (from memory).
var deviceNames = []string{"con", "prn", "aux", "nul",
	"com0", "com1", "com2", "com3", "com4", "com5", "com6", "com7", "com8", "com9",
	"lpt0", "lpt1", "lpt2", "lpt3", "lpt4", "lpt5", "lpt6", "lpt7", "lpt8", "lpt9"}

// CheckFileName holds the name of a file that goes with a record to what every
// system can keep and nobody can take for a path or an option:
// [A-Za-z0-9][A-Za-z0-9._-]*, at most record.MaxText characters, no full stop at the
// end and no device's name.
func CheckFileName(name string) error {
	switch {
	case name == "":
		return fmt.Errorf("nothing written: write the name of a file, as plate.jpg")
	case len(name) > record.MaxText:
		return fmt.Errorf("%s: %d characters, at most %d fit: write a shorter name", show(name), len([]rune(name)), record.MaxText)
	case strings.ContainsAny(name, `/\:`):
		return fmt.Errorf("%s is a path: write the name of the file alone", show(name))
	}
	for i := range len(name) {
		if !FileNameByte(name[i]) || i == 0 && strings.IndexByte("._-", name[i]) >= 0 {
			return fmt.Errorf("%s: write letters a to z, digits, full stops, hyphens and low lines only, a letter or digit first", show(name))
		}
	}
	if name[len(name)-1] == '.' {
		return fmt.Errorf("%s ends with a full stop: take it out", show(name))
	}
	stem, _, _ := strings.Cut(strings.ToLower(name), ".")
	if slices.Contains(deviceNames, stem) {
		return fmt.Errorf("%s is the name of a device on some systems: write another", show(name))
	}
	return nil
}

// FileNameByte says whether a byte may stand in the name of a file that goes with a
// record.
func FileNameByte(b byte) bool {
	return b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' || b >= '0' && b <= '9' || b == '.' || b == '_' || b == '-'
}

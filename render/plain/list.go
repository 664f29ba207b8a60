package plain

import (
	"fmt"

	"hourseal/record/list"
	"hourseal/sign"
)

// List is what a signed list of records says.
func List(l *list.List) []Block {
	machine := fmt.Sprintf("%s %s, serial number %s", l.Machine.Make, l.Machine.Model, l.Machine.Serial)
	if l.Machine.Vessel != "" {
		machine += ", " + l.Machine.Vessel
	}
	if l.Machine.Hull != "" {
		machine += ", hull " + l.Machine.Hull
	}
	by := l.Issuer.Name
	if l.Issuer.Contact != "" {
		by += ", " + l.Issuer.Contact
	}
	rows := [][]string{{"machine", machine}, {"records", heldText(l)}}
	for _, end := range l.Ends {
		rows = append(rows, []string{"ends with", fmt.Sprintf("record %d: %s", end.Number, sign.ID(end.ID))})
	}
	rows = append(rows, []string{"until", l.Until.String()}, []string{"made for", l.For}, []string{"by", by})
	return []Block{{Rows: rows}}
}

// heldText is how many records a list speaks of, in how many chains.
func heldText(l *list.List) string {
	switch chains := len(l.Ends); {
	case chains == 0:
		return "none"
	case chains == 1:
		return fmt.Sprintf("%d in all", l.Count)
	default:
		return fmt.Sprintf("%d in all, in %d chains", l.Count, chains)
	}
}

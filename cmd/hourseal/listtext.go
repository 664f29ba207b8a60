package main

import (
	"fmt"

	"hourseal/record"
	"hourseal/record/list"
	"hourseal/record/quantity"
	"hourseal/sign"
)

// sayList prints what a signed list of records says.
func (p *program) sayList(indent string, l *list.List) {
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
	p.table(indent, append(rows, []string{"until", l.Until.String()}, []string{"made for", l.For}, []string{"by", by}))
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

// signedListJSON is a list in the JSON of "hourseal verify".
type signedListJSON struct {
	ID      record.ID     `json:"id"`
	Records uint32        `json:"records"`
	Ends    []list.End    `json:"ends"`
	Until   quantity.Date `json:"until"`
	For     string        `json:"for"`
}

func listSaid(id record.ID, l *list.List) *signedListJSON {
	return &signedListJSON{id, l.Count, append([]list.End{}, l.Ends...), l.Until, l.For}
}

// isList says whether an envelope was sealed as a list, whatever is in it.
func isList(envelope []byte) bool {
	_, err := sign.Open(sign.ListV1, envelope)
	return err == nil
}

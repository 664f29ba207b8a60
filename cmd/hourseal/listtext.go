package main

import (
	"hourseal/record"
	"hourseal/record/list"
	"hourseal/record/quantity"
	"hourseal/sign"
)

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

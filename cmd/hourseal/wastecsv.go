package main

import (
	"bytes"
	"encoding/csv"
	"slices"
	"strconv"
	"strings"

	"hourseal/record/quantity"
	"hourseal/record/waste"
	"hourseal/sign"
)

// wasteColumns are the columns of the CSV: names and order are stable. A cell is
// empty where there is nothing on record. density is kg/m3 at 15 degC, where a mass
// was made litres by it; density_assumed is then yes or no.
var wasteColumns = []string{
	"date", "machine", "vessel", "make", "model", "serial", "job_number", "record_number", "record",
	"system", "as_written", "litres", "kilograms", "density", "density_assumed", "to", "held", "receipt",
}

// wasteCSV is RFC 4180 with a heading, in UTF-8 without a byte order mark. Texts
// are as signed: an apostrophe before what a spreadsheet takes for a formula would
// be another text, and a receipt of that name there is none.
func wasteCSV(a waste.Account) ([]byte, error) {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.UseCRLF = true
	rows := [][]string{wasteColumns}
	for _, e := range a.Entries {
		rows = append(rows, wasteRow(e))
	}
	err := w.WriteAll(rows)
	return out.Bytes(), err
}

func wasteRow(e waste.Entry) []string {
	r := e.From.Record
	m, w, amount := r.Machine, e.Waste, e.Amount
	density, assumed := "", ""
	if amount.Density > 0 {
		density, assumed = strconv.FormatInt(int64(amount.Density), 10), "no"
		if amount.Assumed {
			assumed = "yes"
		}
	}
	return []string{
		r.Job.Date.String(), m.ID, m.Vessel, m.Make, m.Model, m.Serial, r.Job.Number,
		strconv.FormatUint(uint64(r.Number), 10), sign.ID(e.From.ID).Hex(),
		w.System, w.Amount.String(), litresCell(amount.Litres), kilogramsCell(amount.Weighed), density, assumed, w.To, w.Held, w.Receipt,
	}
}

func litresCell(v *quantity.Volume) string {
	if v == nil {
		return ""
	}
	return v.Litres()
}

func kilogramsCell(m *quantity.Mass) string {
	if m == nil {
		return ""
	}
	return m.Kilograms()
}

// formulaTexts are the cells of the CSV that a spreadsheet may take for formulas,
// each once.
func formulaTexts(a waste.Account) []string {
	var texts []string
	for _, e := range a.Entries {
		for _, cell := range wasteRow(e) {
			if cell != "" && strings.ContainsRune("=+-@", rune(cell[0])) && !slices.Contains(texts, cell) {
				texts = append(texts, cell)
			}
		}
	}
	return texts
}

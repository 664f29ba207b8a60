package main

import (
	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/render/plain"
	"hourseal/sign"
	"hourseal/verify"
)

// The JSON of "hourseal verify".
type verifyAnswer struct {
	Input       string          `json:"input"`
	Verdict     verify.Verdict  `json:"verdict"`
	Sentence    string          `json:"sentence"`
	Record      *string         `json:"record"`
	Source      *string         `json:"source"`
	Signer      *signerJSON     `json:"signer"`
	Page        *string         `json:"page"`
	Machine     *machineJSON    `json:"machine"`
	Date        *quantity.Date  `json:"date"`
	Hours       *quantity.Hours `json:"hours"`
	Written     *string         `json:"written"`
	NoLaterThan *quantity.Date  `json:"no_later_than"`
	Findings    []findingJSON   `json:"findings"`
	Reason      *string         `json:"reason"` // why it is altered or cannot be read
	List        *signedListJSON `json:"list"`   // a signed list of records; record, date and hours are null then
	Files       []fileJSON      `json:"files"`  // that the record names
}

type signerJSON struct {
	Name         *string `json:"name"`
	Fingerprint  string  `json:"fingerprint"`
	Known        bool    `json:"known"`
	ValidForDate bool    `json:"valid_for_date"`
	Kind         *string `json:"kind"`
}

type machineJSON struct {
	Make   string  `json:"make"`
	Model  string  `json:"model"`
	Serial string  `json:"serial"`
	Vessel *string `json:"vessel"`
	Hull   *string `json:"hull"`
}

type fileJSON struct {
	Name   string           `json:"name"`
	SHA256 record.Digest    `json:"sha256"` // as signed
	State  verify.FileState `json:"state"`  // at-hand, differs or not-at-hand
}

// verifyJSON gives nothing of the record where the verdict hides its content.
func verifyJSON(a answer) verifyAnswer {
	result := a.result
	out := verifyAnswer{
		Input: a.input, Verdict: result.Verdict, Sentence: result.Sentence(),
		Source: orNull(string(result.Source)), Findings: []findingJSON{}, Files: []fileJSON{},
	}
	if result.Verdict.HidesContent() {
		out.Reason = orNull(result.Reason())
		return out
	}
	s := result.Signer
	signer := func(kind record.IssuerKind) *signerJSON {
		return &signerJSON{orNull(s.Standing.Trusted.Name), s.Key.Fingerprint(), s.Known, s.ValidForDate(), orNull(kind.String())}
	}
	if l := result.List; l != nil {
		out.Signer, out.Written = signer(l.Issuer.Kind), orNull(plain.Written(l.IssuedAt))
		out.Machine = &machineJSON{l.Machine.Make, l.Machine.Model, l.Machine.Serial, orNull(l.Machine.Vessel), orNull(l.Machine.Hull)}
		out.List = listSaid(*result.Record, l)
		return out
	}
	id := sign.ID(*result.Record).Hex()
	out.Record = &id
	if result.Page != nil {
		out.Page = orNull(string(result.Page.Result))
	}
	r := result.Signed
	out.Signer = signer(r.Issuer.Kind)
	m := r.Machine
	out.Machine = &machineJSON{m.Make, m.Model, m.Serial, orNull(m.Vessel), orNull(m.Hull)}
	out.Date, out.Hours, out.Written = &r.Job.Date, &r.Job.Hours, orNull(written(r))
	for _, f := range r.Findings {
		out.Findings = append(out.Findings, findingOf(f))
	}
	for _, f := range result.Files {
		out.Files = append(out.Files, fileJSON{f.Name, f.SHA256, f.State})
	}
	return out
}

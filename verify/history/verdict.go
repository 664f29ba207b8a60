package history

import (
	"hourseal/verify"
)

// OverdueRun says whether a task was done overdue, is overdue at the last record, or
// was so on the day that was asked about.
func (m *Machine) OverdueRun() bool {
	for _, t := range m.Tasks {
		if t.At.State == Late || t.DoneLate() > 0 || t.Overdue > 0 {
			return true
		}
	}
	if m.Stands != nil {
		for _, t := range m.Stands.Tasks {
			if t.All.At.State == Late || t.All.Most == Late || t.Shown.At.State == Late {
				return true
			}
		}
	}
	return false
}

// ExitCode is the program's exit code for one machine; formats, "Command line".
func (m *Machine) ExitCode() int {
	code := 0
	if m.OverdueRun() || len(m.Counted) == 0 { // and nothing was judged
		code = 7
	}
	for _, f := range m.Faults {
		code = worse(code, f.ExitCode())
	}
	for i := range m.Entries {
		e := &m.Entries[i]
		switch {
		case !e.Signer.Known:
			code = worse(code, verify.UnknownSigner.ExitCode())
		case e.Counts == KeyNotValid:
			code = worse(code, verify.KeyNotValid.ExitCode())
		}
		if e.pageInDoubt() {
			code = worse(code, verify.NotOriginal.ExitCode())
		}
	}
	for _, l := range m.Lists {
		switch {
		case !l.Signer.Known:
			code = worse(code, verify.UnknownSigner.ExitCode())
		case !l.Counts:
			code = worse(code, verify.KeyNotValid.ExitCode())
		}
	}
	return code
}

// ExitCode is the worst over all machines and inputs.
func (h History) ExitCode() int {
	code := 0
	for i := range h.Machines {
		code = worse(code, h.Machines[i].ExitCode())
	}
	for _, a := range h.Aside {
		switch {
		case a.Why == AsideListAlone:
			code = worse(worse(code, 7), a.Verdict.ExitCode())
		case a.Why != AsideOtherMachine || len(h.Machines) == 0:
			code = worse(code, a.Verdict.ExitCode())
		}
	}
	return code
}

func worse(a, b int) int {
	if rank(b) < rank(a) {
		return b
	}
	return a
}

package main

import (
	"fmt"
	"os"
	"slices"
	"strconv"

	"hourseal/record"
	"hourseal/record/ledger"
	"hourseal/sign"
	"hourseal/verify/source"
)

// storedByNumber finds a machine's record in the ledger by its number.
func (y yard) storedByNumber(machine, digits string) (ledger.Stored, error) {
	number, err := strconv.ParseUint(digits, 10, 32)
	if err != nil {
		return ledger.Stored{}, err
	}
	chain, err := y.ledger.Chain(machine)
	if err != nil {
		return ledger.Stored{}, err
	}
	if len(chain) == 0 {
		return ledger.Stored{}, usageError{"there is no record of a machine " + machine, y.recordHint(machine + "/" + digits)}
	}
	first, last := chain[0].Record.Number, chain[len(chain)-1].Record.Number
	i := slices.IndexFunc(chain, func(s ledger.Stored) bool { return uint64(s.Record.Number) == number })
	switch {
	case i >= 0:
		return chain[i], nil
	case number < uint64(first) && number > 0:
		return ledger.Stored{}, usageError{fmt.Sprintf("record %d of %s is another yard's and not here: the first here is %d", number, machine, first), fmt.Sprintf("%s/%d", machine, first)}
	default:
		return ledger.Stored{}, usageError{fmt.Sprintf("there is no record %d of %s: its last is %d", number, machine, last), fmt.Sprintf("%s/%d", machine, last)}
	}
}

// storedByID finds a record of any machine in the ledger.
func (y yard) storedByID(what string, is func(record.ID) bool) (ledger.Stored, error) {
	machines, err := y.ledger.Machines()
	if err != nil {
		return ledger.Stored{}, err
	}
	for _, machine := range machines {
		chain, err := y.ledger.Chain(machine)
		if err != nil {
			return ledger.Stored{}, err
		}
		for _, stored := range chain {
			if is(stored.ID) {
				return stored, nil
			}
		}
	}
	return ledger.Stored{}, usageError{"no record with " + what + " in this yard folder", ""}
}

// storedNamed finds a record in the ledger by machine/number, by its id, or by a file
// that holds it: the record itself, or its report.
func (p *program) storedNamed(y yard, name string) (ledger.Stored, error) {
	if info, err := os.Stat(name); err == nil && !info.IsDir() {
		data, err := p.readInput(name)
		if err != nil {
			return ledger.Stored{}, err
		}
		found, err := source.Read(data)
		if err != nil {
			return ledger.Stored{}, atFile(name, err)
		}
		// The ledger's is taken, whatever else the file shows.
		id := record.ID(sign.IDOf(found.Envelope))
		return y.storedByID(fmt.Sprintf("the id %s of %s", sign.ID(id), name), func(other record.ID) bool { return other == id })
	}
	if m := machineNumber.FindStringSubmatch(name); m != nil {
		return y.storedByNumber(m[1], m[2])
	}
	if sign.LooksLikeID(name) {
		return y.storedByID("the id "+name, func(id record.ID) bool { return sign.ID(id).Matches(name) })
	}
	return ledger.Stored{}, usageError{"no record " + name, "machine/number such as gannet-port/1, a record file, its report or its id"}
}

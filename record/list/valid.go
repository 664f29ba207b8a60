package list

import (
	"fmt"

	"hourseal/record"
	"hourseal/record/quantity"
)

// Limits of one list.
const (
	MaxEnds   = 64        // chains
	maxNumber = 1_000_000 // of a record in its chain, as in a record

	secondsPerDay = 86_400
)

// Validate checks every value of a list against the format. The fault says where it is,
// as "machine serial: is empty".
func (l *List) Validate() error {
	if l.Format != Format {
		return fmt.Errorf("format: this program reads lists of format %d only", Format)
	}
	return first(
		required("machine make", l.Machine.Make, record.MaxText),
		required("machine model", l.Machine.Model, record.MaxText),
		required("machine serial", l.Machine.Serial, record.MaxText),
		text("vessel", l.Machine.Vessel, record.MaxText),
		text("hull", l.Machine.Hull, record.MaxText),
		required("issuer name", l.Issuer.Name, record.MaxText),
		issuerKind(l.Issuer.Kind),
		text("issuer contact", l.Issuer.Contact, record.MaxText),
		text("issuer address", l.Issuer.Address, record.MaxText),
		l.checkEnds(),
		within("until", int64(l.Until), int64(quantity.MinDate), int64(quantity.MaxDate)),
		required("for", l.For, record.MaxReason),
		within("issued at", l.IssuedAt, 0, int64(quantity.MaxDate)*secondsPerDay),
		l.checkUntil(),
	)
}

// checkEnds holds the ends to their order, and their number to that of the records.
func (l *List) checkEnds() error {
	if len(l.Ends) > MaxEnds {
		return fmt.Errorf("ends: %d chains, at most %d fit", len(l.Ends), MaxEnds)
	}
	var most uint64 // records that the chains can have: from their first
	for i, e := range l.Ends {
		if err := within(fmt.Sprintf("end %d number", i+1), int64(e.Number), 1, maxNumber); err != nil {
			return err
		}
		if i > 0 && l.Ends[i-1].compare(e) >= 0 {
			return fmt.Errorf("end %d: is there twice, or not in the order of the ids", i+1)
		}
		most += uint64(e.Number)
	}
	if n := uint64(l.Count); n < uint64(len(l.Ends)) || n > most || n > maxNumber {
		return fmt.Errorf("count: %d records in %d chains that end at numbers of %d together", l.Count, len(l.Ends), most)
	}
	return nil
}

// checkUntil: nobody can say what is held on a day to come. The day is the one where
// the yard is, which begins up to 14 hours before that of UTC.
func (l *List) checkUntil() error {
	if today := quantity.FromUnix(l.IssuedAt); l.Until > today+1 {
		return fmt.Errorf("until: %s is after the list was signed, on %s", l.Until, today)
	}
	return nil
}

func first(faults ...error) error {
	for _, err := range faults {
		if err != nil {
			return err
		}
	}
	return nil
}

func text(field, value string, limit int) error {
	if err := record.CheckText(value, limit); err != nil {
		return fmt.Errorf("%s: %w", field, err)
	}
	return nil
}

func required(field, value string, limit int) error {
	if value == "" {
		return fmt.Errorf("%s: is empty", field)
	}
	return text(field, value, limit)
}

func within(field string, value, low, high int64) error {
	if value < low || value > high {
		return fmt.Errorf("%s: %d is outside %d to %d", field, value, low, high)
	}
	return nil
}

func issuerKind(kind record.IssuerKind) error {
	if kind == 0 || int(kind) > len(record.IssuerWords) {
		return fmt.Errorf("issuer kind: unknown value %d", kind)
	}
	return nil
}

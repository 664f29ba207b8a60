package source

import (
	"bytes"
	"cmp"
	"errors"

	"hourseal/sign/qrtext"
)

// together is what texts come to that were put together by record.
type together struct {
	envelope    []byte // nil unless a record is whole
	host        string // that its texts name
	hostUnknown bool   // all of its texts are fragments
	missing     *qrtext.MissingPartsError
	texts       []string // those of the record, or of the parts that missing is about
	damaged     error    // why the first of the others is not read
	unsound     error    // why what the first of the others holds is no envelope
}

// putTogether decodes groups of parts, wherever they were read. A record that is whole
// counts, and parts of it do no harm; another record, whole or in part, does not go
// together with it. Where there are parts only, missing is of the record to which the
// fewest are missing. The error, an *InputError, says that the texts do not belong
// together.
func putTogether(groups []group, in medium) (together, error) {
	var t together
	var parted []group       // those with parts missing
	var partedTexts []string // of those that missing is about
	two := func(what string) (together, error) {
		return together{}, &InputError{Kind: ErrTwoRecords, Reason: in.what + " " + in.holds + " " + what, Hint: hintTwo}
	}
	for _, group := range groups {
		group.settle()
		decoded, err := qrtext.Join(group.parts)
		if lack, lacking := errors.AsType[*qrtext.MissingPartsError](err); lacking {
			if parted = append(parted, group); t.missing == nil || len(lack.Missing) < len(t.missing.Missing) {
				t.missing, partedTexts = lack, group.texts
			}
			continue
		}
		if err != nil {
			t.damaged = cmp.Or(t.damaged, err)
			continue
		}
		if err := soundEnvelope(decoded.Envelope); err != nil {
			t.unsound = cmp.Or(t.unsound, err)
			continue
		}
		switch {
		case t.envelope == nil:
			t.envelope, t.host = decoded.Envelope, decoded.Host
		case !bytes.Equal(t.envelope, decoded.Envelope):
			return two("two different service records")
		case t.host == fragmentMark:
			t.host = decoded.Host
		case decoded.Host != fragmentMark && t.host != decoded.Host:
			return together{}, &InputError{Kind: ErrUnreadable, Reason: in.codes + " name two different pages", Hint: hintTwo}
		}
		t.texts = append(t.texts, group.texts...)
	}
	for _, group := range parted {
		switch {
		case t.envelope != nil && group.parts[0].Record != qrtext.PartsName(t.envelope):
			return two("a service record and a part of another")
		case group.parts[0].Record != parted[0].parts[0].Record:
			return two("parts of two different service records")
		}
	}
	if t.envelope == nil {
		t.texts = partedTexts
	}
	// A text that came whole speaks for the fragments of the same record: were the host
	// unknown, an address that leads away would go unsaid.
	if t.host == fragmentMark {
		t.host, t.hostUnknown = "", true
	}
	return t, nil
}

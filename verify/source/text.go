package source

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"hourseal/sign/qrtext"
)

// readText reads QR texts, one a line. Blank lines, white space around a text,
// carriage returns and a byte order mark are taken for the mail program's and
// dropped.
func readText(data []byte) (Found, error) {
	if len(data) > MaxTextBytes {
		if looksLikeText(string(data[:16])) {
			return Found{}, tooLarge("text", len(data), MaxTextBytes)
		}
		return Found{}, &InputError{Kind: ErrUnreadable, Reason: "this is neither a PDF, a QR text nor a record file", Hint: hintAnything}
	}
	texts := textLines(data)
	if len(texts) == 0 {
		return Found{}, &InputError{Kind: ErrUnreadable, Reason: "the input holds nothing but white space", Hint: hintAnything}
	}
	for _, text := range texts {
		if !looksLikeText(text) {
			return Found{}, &InputError{Kind: ErrUnreadable, Reason: "this is neither a PDF, a QR text nor a record file", Hint: hintAnything}
		}
	}
	envelope, host, err := oneRecord(texts)
	if err != nil {
		return Found{}, err
	}
	return Found{Kind: KindText, Envelope: envelope, Texts: texts, Host: host}, nil
}

func textLines(data []byte) []string {
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	var texts []string
	for line := range strings.SplitSeq(string(data), "\n") {
		if line = strings.TrimSpace(line); line != "" {
			texts = append(texts, line)
		}
	}
	return texts
}

// looksLikeText tells a QR text (perhaps a damaged one, which deserves the
// exact reason) from any other text or bytes.
func looksLikeText(text string) bool {
	lower := strings.ToLower(text[:min(len(text), len("https://"))])
	return strings.HasPrefix(lower, "https://") || strings.HasPrefix(lower, "hourseal")
}

// oneRecord decodes texts which may name one record several times, as one text,
// as parts, or both.
func oneRecord(texts []string) (envelope []byte, host string, err error) {
	unreadable := func(reason, hint string, cause error) ([]byte, string, error) {
		return nil, "", &InputError{Kind: ErrUnreadable, Reason: reason, Hint: hint, Cause: cause}
	}
	const unread, again = "the QR text cannot be read", "scan the code again, or give the PDF or the .cose record file"
	groups, err := groupTexts(texts)
	if _, ok := errors.AsType[*qrtext.ReferenceError](err); ok { // nothing is wrong with the code
		return unreadable("there is no record in this text", hintAnything, err)
	}
	if err != nil {
		return unreadable(unread, again, err)
	}
	for i, group := range groups {
		decoded, err := qrtext.Join(group)
		if err != nil {
			return unreadable(unread, again, err)
		}
		if err := soundEnvelope(decoded.Envelope); err != nil {
			return unreadable("the QR text holds no record", hintAnything, err)
		}
		switch {
		case i == 0:
			envelope, host = decoded.Envelope, decoded.Host
		case !bytes.Equal(envelope, decoded.Envelope):
			return nil, "", &InputError{Kind: ErrTwoRecords, Reason: "the texts hold two different service records", Hint: hintTwo}
		case host != decoded.Host:
			return unreadable("the texts name two different pages", hintTwo, nil)
		}
	}
	return envelope, host, nil
}

// maxTexts is twice the parts that a record can have, so that reading every
// code of a report twice does no harm.
const maxTexts = 2 * 99

// groupTexts puts the parts of one record together and every whole text by
// itself, in the order of first appearance.
func groupTexts(texts []string) ([][]qrtext.Part, error) {
	if len(texts) > maxTexts {
		return nil, fmt.Errorf("%d texts, a record has at most %d", len(texts), maxTexts)
	}
	var groups [][]qrtext.Part
	for i, text := range texts {
		part, err := qrtext.Parse(text)
		if err != nil {
			if len(texts) > 1 {
				err = fmt.Errorf("text %d: %w", i+1, err)
			}
			return nil, err
		}
		groups = addPart(groups, part)
	}
	return groups, nil
}

func addPart(groups [][]qrtext.Part, part qrtext.Part) [][]qrtext.Part {
	for i, group := range groups {
		first := group[0]
		if part == first || part.Count != 0 && part.Count == first.Count && part.Record == first.Record {
			groups[i] = append(group, part)
			return groups
		}
	}
	return append(groups, []qrtext.Part{part})
}

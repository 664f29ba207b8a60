package source

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"hourseal/sign/qrtext"
)

var errNothingOfOurs = &InputError{Kind: ErrUnreadable, Reason: "this is neither a PDF, a picture, a QR text nor a record file", Hint: hintAnything}

// readText reads QR texts, one a line. Blank lines, white space around a text,
// carriage returns and a byte order mark are taken for the mail program's and
// dropped.
func readText(data []byte) (Found, error) {
	if len(data) > MaxTextBytes {
		if looksLikeText(string(data[:16])) {
			return Found{}, tooLarge("text", len(data), MaxTextBytes)
		}
		return Found{}, errNothingOfOurs
	}
	texts := textLines(data)
	if len(texts) == 0 {
		return Found{}, &InputError{Kind: ErrUnreadable, Reason: "the input holds nothing but white space", Hint: hintAnything}
	}
	for _, text := range texts {
		if !looksLikeText(text) {
			return Found{}, errNothingOfOurs
		}
	}
	return fromTextLines(texts)
}

// fromTextLines finds the record in texts that are all meant to be of it. Of an error
// the kind is KindText.
func fromTextLines(texts []string) (Found, error) { return ofKind(KindText)(foundInText(texts)) }

func foundInText(texts []string) (Found, error) {
	if len(texts) == 0 {
		return Found{}, &InputError{Kind: ErrUnreadable, Reason: "there is no text", Hint: hintAnything}
	}
	t, err := oneRecord(texts)
	if err != nil {
		return Found{}, err
	}
	return Found{Kind: KindText, Envelope: t.envelope, Texts: texts, Host: t.host, HostUnknown: t.hostUnknown}, nil
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
	return strings.HasPrefix(lower, "https://") || strings.HasPrefix(lower, "hourseal") || strings.HasPrefix(lower, fragmentMark) && len(lower) > 1 && isDigit(lower[1])
}

// oneRecord decodes texts which may name one record several times, as one text,
// as parts, or both. Whatever is in them beside the record is an error.
func oneRecord(texts []string) (together, error) {
	unreadable := func(reason, hint string, cause error) (together, error) {
		return together{}, &InputError{Kind: ErrUnreadable, Reason: reason, Hint: hint, Cause: cause}
	}
	const unread = "the QR text cannot be read"
	groups, err := groupTexts(texts)
	if label, ok := errors.AsType[*qrtext.ReferenceError](err); ok { // nothing is wrong with the code
		if len(texts) > 1 {
			return unreadable("one of the texts holds no record", hintAnything, label)
		}
		return unreadable("there is no record in this text", hintAnything, label)
	}
	if err != nil {
		return unreadable(unread, asText.again, err)
	}
	t, err := putTogether(groups, asText)
	switch {
	case err != nil:
		return together{}, err
	case t.damaged != nil:
		return unreadable(unread, asText.again, t.damaged)
	case t.unsound != nil:
		return unreadable("the QR text holds no record", hintAnything, t.unsound)
	case t.envelope == nil:
		return together{}, &InputError{Kind: ErrUnreadable, Reason: unread, Hint: hintOtherCodes, Cause: t.missing, Texts: t.texts}
	}
	return t, nil
}

// maxTexts is twice the parts that a record can have, so that reading every
// code of a report twice does no harm.
const maxTexts = 2 * 99

// groupTexts puts the parts of one record together and every whole text by
// itself, in the order of first appearance.
func groupTexts(texts []string) ([]group, error) {
	if len(texts) > maxTexts {
		return nil, fmt.Errorf("%d texts, a record has at most %d", len(texts), maxTexts)
	}
	var groups []group
	for i, text := range texts {
		part, err := parseText(text)
		if err != nil {
			if len(texts) > 1 {
				err = fmt.Errorf("text %d: %w", i+1, err)
			}
			return nil, err
		}
		groups = addPart(groups, part, text)
	}
	return groups, nil
}

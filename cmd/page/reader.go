package main

import (
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"

	"hourseal/record/quantity"
	"hourseal/sign"
	"hourseal/verify"
)

// askerJSON is the reader as the page knows them.
type askerJSON struct {
	Serial     string      `json:"serial"`
	Hours      string      `json:"hours"`
	On         string      `json:"on"`
	Trust      []trustJSON `json:"trust"`
	Statements string      `json:"statements"`
}

type trustJSON struct {
	Name    string       `json:"name"`
	Key     string       `json:"key"`
	From    string       `json:"from"`
	Until   string       `json:"until"`
	Revoked *revokedJSON `json:"revoked"`
}

type revokedJSON struct {
	From string `json:"from"`
	Why  string `json:"why"`
}

// readerOf makes a verify.Reader. What a person typed and that cannot be used
// is left out and told in faults, by field; anything else wrong is the page's
// fault and an error.
func readerOf(text string) (reader verify.Reader, faults map[string]string, err error) {
	asked, err := askerOf(text)
	if err != nil {
		return reader, nil, fmt.Errorf("reader: %w", err)
	}
	faults = map[string]string{}
	reader.Serial = asked.Serial
	if asked.Hours != "" {
		hours, err := quantity.ParseHours(asked.Hours)
		if err != nil {
			faults["hours"] = clean(err.Error())
		} else {
			reader.Hours = &hours
		}
	}
	if asked.On != "" {
		on, err := quantity.ParseDate(asked.On)
		if err != nil {
			return reader, nil, fmt.Errorf("reader: on: %w", err)
		}
		reader.On = &on
	}
	for i, t := range asked.Trust {
		entry, err := t.entry()
		if err == nil {
			reader.Trust, err = reader.Trust.Add(entry)
		}
		if err != nil {
			return reader, nil, fmt.Errorf("reader: trust, entry %d: %w", i+1, err)
		}
	}
	if asked.Statements != "" {
		data, err := base64.StdEncoding.DecodeString(asked.Statements)
		if err != nil {
			return reader, nil, fmt.Errorf("reader: statements: %w", err)
		}
		if reader.Statements, err = sign.ParseStatements(data); err != nil {
			return reader, nil, fmt.Errorf("reader: %w", err)
		}
	}
	return reader, faults, nil
}

// askerOf refuses a field that it does not know: what is passed over might be what
// revokes a key.
func askerOf(text string) (asked askerJSON, err error) {
	decoder := json.NewDecoder(strings.NewReader(text))
	decoder.DisallowUnknownFields()
	if err := decoder.Decode(&asked); err != nil {
		return asked, err
	}
	if _, err := decoder.Token(); err != io.EOF {
		return asked, errors.New("there is more behind it")
	}
	return asked, nil
}

func (t trustJSON) entry() (sign.Trusted, error) {
	entry := sign.Trusted{Name: t.Name}
	var err error
	if entry.Key, _, err = sign.ParsePublicKey([]byte(t.Key)); err != nil {
		return entry, err
	}
	if entry.From, err = dayOrNone(t.From); err != nil {
		return entry, err
	}
	if entry.Until, err = dayOrNone(t.Until); err != nil {
		return entry, err
	}
	if t.Revoked != nil {
		from, err := sign.ParseDay(t.Revoked.From)
		if err != nil {
			return entry, err
		}
		entry.Revoked = &sign.Revocation{From: from, Why: sign.RevokedWhy(t.Revoked.Why)}
	}
	return entry, nil
}

func dayOrNone(text string) (*sign.Day, error) {
	if text == "" {
		return nil, nil
	}
	day, err := sign.ParseDay(text)
	return &day, err
}

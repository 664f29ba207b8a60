package render

import (
	"errors"
	"fmt"
	"reflect"
	"strings"
	"unicode"

	"hourseal/record"
	"hourseal/render/sheet"
)

// Printable says whether every text of a record can be printed. It is asked
// before a record is signed. The error matches [sheet.ErrNoGlyph] and names the
// field and the character, as
//
//	tasks 2, title: character 'ж' (U+0436) has no glyph in the fonts: leave it out
//
// It walks the record's own types, so that a field added to them is never left
// out.
func Printable(r *record.Record) error {
	if r == nil {
		return errors.New("no record to print")
	}
	return printable(reflect.ValueOf(r).Elem(), "")
}

func printable(v reflect.Value, at string) error {
	switch v.Kind() {
	case reflect.String:
		if err := sheet.CheckGlyphs(v.String()); err != nil {
			return fmt.Errorf("%s: %w: leave it out", at, err)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			return printable(v.Elem(), at)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if err := printable(v.Field(i), join(at, plainField(v.Type().Field(i).Name))); err != nil {
				return err
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			if err := printable(v.Index(i), fmt.Sprintf("%s %d", at, i+1)); err != nil {
				return err
			}
		}
	}
	return nil
}

func join(at, field string) string {
	if at == "" {
		return field
	}
	return at + ", " + field
}

// plainField turns a Go field's name into words: OtherWork is "other work".
func plainField(name string) string {
	var words strings.Builder
	lower := false
	for _, r := range name {
		if unicode.IsUpper(r) && lower {
			words.WriteByte(' ')
		}
		lower = unicode.IsLower(r)
		words.WriteRune(unicode.ToLower(r))
	}
	return words.String()
}

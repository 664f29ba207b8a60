package source

import "hourseal/sign/qrtext"

// PartOf takes the text of a code apart, or of one of which only the fragment is known.
// Errors are those of [qrtext.Parse].
func PartOf(text string) (qrtext.Part, error) { return new(hosts).parse(text) }

// Package picture finds QR codes in a greyscale picture and reads their texts:
// photographs and scans of printed sheets, and frames of a camera. It knows the
// symbols of ISO/IEC 18004 (QR code, versions 1 to 40, not Micro QR nor
// light-on-dark) and nothing of what the texts mean.
//
// # How a picture is read
//
// The picture is looked at in passes over several scales, as it is and with the
// grain taken off (pass.go). Each pass divides pixels into dark and light by a
// threshold that follows the light (binarise.go), and looks along the rows for
// finder patterns (finder.go). The finders of all passes make triples (triple.go),
// of which the likeliest are tried (search.go):
//
//   - The version and the perspective are those that make the timing patterns
//     alternate and the version information agree (frame.go).
//   - Every alignment pattern is looked for, each from where its neighbours were
//     found, and a smooth mapping is bent to them, so that paper need not be flat
//     (align.go, mapping.go).
//   - Each module is sampled in the greys, not in the divided picture (sample.go),
//     and the blur between modules is undone by weights that are fitted to the
//     modules whose colour is known (equalise.go).
//   - Modules keep how sure they are. Format information is the word that agrees
//     best, and codewords that are in doubt are tried as erasures (decode.go,
//     correct.go).
//   - Where that fails the mapping is bent to the modules themselves, and all is
//     done once more (reading.go).
//
// # What is reported of a code that was not read
//
// A symbol without text is given only where there is one beyond reasonable doubt:
// three finder patterns whose timing patterns alternate, or modules that agree with
// the layout and the format and version information of a symbol (evidence.go). It
// is given once for each place.
//
// # Bounds
//
// Work is bounded by counting, whatever the pixels (the table works). Memory is the
// picture's own, a third of that for the smaller scales and some 20 MB. There is
// no clock, no randomness, and no panic.
package picture

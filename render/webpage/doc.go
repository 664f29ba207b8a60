// Package webpage puts the page together that a reader checks reports with: one
// HTML file that holds its style, its script, the program that verifies (cmd/page,
// gzipped WebAssembly in base64), Go's glue for it, and the keys of whoever made
// the page. It needs nothing else: it opens from a disk as from any web host.
//
// # What the page may do
//
// A policy in the file (Content Security Policy Level 3, W3C) allows its own
// script and style by their SHA-256 and nothing else: no connection, no frame, no
// form, no picture but data:, and a worker from blob:, in which the program runs. It
// is the first element after the character set, so that nothing comes before it.
// WebRTC is refused only by browsers that know that directive, and Chromium 156
// did not; the page's own script has none of it, and no other script may run.
//
// # What is made of what
//
// [Page] is a pure function: the same parts give the same bytes. The parts of the
// script stand in templates/page, each a file with one idea, and are put one
// after the other in the order of scripts.
//
// The program stands in the page in pieces of 192 KiB, each a data block with a short
// script behind it that hands it on, so that a browser compiles while the rest comes in.
//
// The page is at most MaxBytes long.
package webpage

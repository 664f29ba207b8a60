// Package phototest makes photographs and scans of a printed sheet, for tests
// of what reads them. They are simulated: the same sheet, shot and seed give the
// same picture. (Floating point may differ in the last digit from one kind of
// processor to another, so no test should hold a picture's bytes.)
//
// A sheet is a page as a raster, 0 for ink and 255 for paper: a page of a PDF by
// another program, or [Sheet], a code of our own between marks that look like
// text. [Take] photographs it as a [Shot] says, [Scan] lays it on a scanner.
//
// # The order of things
//
// As in a camera: the paper bulges, lies turned and tilted on a darker table,
// and is resampled once, by bilinear interpolation; the lens blurs; light and
// shadow lie over it; the sensor adds noise; the picture is kept as a JPEG.
// Light and noise are in the grey levels of the picture, 0 to 255, not in
// luminous flux.
//
// # What is left out
//
// Colour, and with it the camera's colour filter and the noise that it
// smears; sharpening by the camera; movement while the shutter is open; the
// lens's own distortion; dust and creases. Of the tilt only the change of scale
// is there, not the shortening along it, which is under a hundredth at the
// strengths used here.
//
// # Strengths
//
// [Mild], [Medium] and [Harsh] were set before any reader was tried on them and
// are not to be tuned to one. Mild is what a careful person gets on a quay with a
// recent phone; medium a hurried one; harsh a careless one. The kinds of
// distortion, the turn of 1 to 15 degrees, JPEG at quality 60 and the three
// resolutions come from the project's own goal for reading a sheet by phone; the
// other figures are common practice, no source.
package phototest

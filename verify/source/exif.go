package source

import (
	"bytes"
	"encoding/binary"
)

const (
	exifHeader     = "Exif\x00\x00"
	orientationTag = 0x0112
	shortType      = 3  // TIFF 6.0 section 2, field types: SHORT, two bytes
	ifdEntryBytes  = 12 // tag, type, count, value
)

// exifOrientation reads the tag Orientation of the first image in an Exif segment
// (Exif 2.32, CIPA DC-008-2019, sections 4.5 and 4.6.4; TIFF 6.0 section 2). The
// segment may say anything: what is not in order is orientation 1, upright.
func exifOrientation(segment []byte) int {
	tiff, ok := bytes.CutPrefix(segment, []byte(exifHeader))
	if !ok || len(tiff) < 8 {
		return 1
	}
	var order binary.ByteOrder
	switch string(tiff[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return 1
	}
	at := uint64(order.Uint32(tiff[4:]))
	if at+2 > uint64(len(tiff)) {
		return 1
	}
	entries := tiff[at+2:]
	for range order.Uint16(tiff[at:]) {
		if len(entries) < ifdEntryBytes {
			return 1
		}
		if order.Uint16(entries) == orientationTag {
			value := int(order.Uint16(entries[8:]))
			if order.Uint16(entries[2:]) != shortType || order.Uint32(entries[4:]) != 1 || value < 1 || value > 8 {
				return 1
			}
			return value
		}
		entries = entries[ifdEntryBytes:]
	}
	return 1
}

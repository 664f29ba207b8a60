// Package calendar writes due items as a calendar file (RFC 5545, iCalendar),
// which calendar programs and telephones import.
//
// # The file
//
// One event a due item, each for a whole day. What the yard's calendar of one
// item looks like:
//
//	BEGIN:VCALENDAR
//	VERSION:2.0
//	PRODID:-//hourseal//due items//EN
//	CALSCALE:GREGORIAN
//	NAME:Ellery Slip Boatyard\, due
//	X-WR-CALNAME:Ellery Slip Boatyard\, due
//	BEGIN:VEVENT
//	UID:f0467c27-5e2f-8fed-92ed-0ce3da806fa5
//	DTSTAMP:20260504T152000Z
//	LAST-MODIFIED:20260504T152000Z
//	SEQUENCE:20577
//	DTSTART;VALUE=DATE:20270504
//	DTEND;VALUE=DATE:20270505
//	TRANSP:TRANSPARENT
//	SUMMARY:Gannet\, port engine: change the engine oil
//	DESCRIPTION:At 1012.6 h or on 2027-05-04\, whichever is first.\nLast done 2
//	 026-05-04 at 812.6 h.
//	END:VEVENT
//	END:VCALENDAR
//
// Lines end in CR LF and are at most 75 octets long without it; a longer one
// goes on in the next, behind a space, and is never cut inside a character
// (RFC 5545, 3.1). In text, backslash, semicolon, comma and newline are escaped
// (3.3.11). NAME is the calendar's name by RFC 7986, 5.1; X-WR-CALNAME is the
// same for the programs that know only that one (common practice, no source).
// An event takes up no time of its day (TRANSP, 3.8.2.7), and ends before the
// day of its DTEND (3.6.1).
//
// # A second import
//
// An item has the same UID in every calendar ([UID]). SEQUENCE is the day of the
// stamp, counted from 1970-01-01, and DTSTAMP and LAST-MODIFIED are the stamp:
// of two calendars the later one wins, and an item that moved is moved, not
// doubled (3.8.7.4, and RFC 5546, 2.1.5). An item that is no longer in a
// calendar stays in the program that imported an earlier one.
//
// There is no METHOD: the file is a snapshot, and nobody is invited (3.7.2). A
// METHOD:PUBLISH would need an ORGANIZER for each event (RFC 5546, 3.2.1).
package calendar

// Package source takes a sealed service record out of whatever a person has:
// a report as PDF, the text of its QR code, or the bare record file. It says
// what it found and where; it does not say who signed, or whether the
// signature holds.
//
// The kind of input is decided by content, never by file name:
//
//	record  the bytes of one envelope and nothing else (see package sign)
//	pdf     anything with a "%PDF-" header in it
//	text    one QR text, or one a line where a record is cut into parts; the
//	        text of a label, which only names a record, is an error that says so
//	image   named for later; for now an error that says what to give instead
//
// # The layout of a report
//
// A PDF is first read strictly, in the one layout that this program's reports
// have. Every byte of the file belongs to exactly one of these, in this order:
//
//	%PDF-1.N                       N from 3 to 7
//	OBJECT...                      back to back
//	xref                           one table, for objects 0 to n, recomputed
//	trailer                        /Size, /Root (object n), /Info (object n-1)
//	startxref, %%EOF, end of file
//
// An OBJECT is "N 0 obj", a dictionary, perhaps a stream, and "endobj". All
// numbers from 1 to n occur once, in any order. A stream has a direct /Length
// and either no filter or /FlateDecode; a deflated stream fills its /Length to
// the last byte, has a 32 KiB window and no preset dictionary, and its checksum
// holds. Object streams, cross-reference streams, updates appended to the file
// and anything before the header or after the end are refused.
//
// The record travels as attachments: record.cose (the envelope), record.txt
// (its QR text, or one part a line) and, where there are any, keys.cose. They
// are found from the catalog by way of /Names, /EmbeddedFiles, the file
// specification and /EF; size and MD5 checksum of each have to agree, and there
// is no further embedded file in the whole document. record.txt has to hold the
// very envelope of record.cose.
//
// A file that is refused is searched, within bounds, for envelopes and QR
// texts. One distinct envelope is handed back with the reason for the refusal
// in Found.Salvaged; two are an error, because nobody could say which of them
// the page is about. Where only record.txt was swapped for another record's, the
// attached record.cose is handed back in the same way.
//
// # Limits
//
// A PDF is at most 8 MiB, a record file 16 KiB, a text 64 KiB. A stream of a
// report inflates to at most 4 MiB and all of them to 16 MiB; a search inflates
// at most 64 MiB in all. Over the limit is an error. Only of a single stream that
// is longer than 4 MiB, a picture as a rule, does a search look at the first
// 4 MiB and leave the rest.
package source

// Package source takes a sealed service record out of whatever a person has:
// a report as PDF, a photograph or scan of the paper, the text of its QR code, or
// the bare record file. It says what it found and where; it does not say who
// signed, or whether the signature holds.
//
// The kind of input is decided by content, never by file name:
//
//	record  the bytes of one envelope and nothing else (see package sign)
//	pdf     anything with a "%PDF-" header in it
//	text    one QR text, or one a line where a record is cut into parts; the
//	        text of a label, which only names a record, is an error that says so
//	image   a JPEG or PNG with the record's codes in it
//
// Of a text the part from the "#" on is enough, as a page is given it; then nobody
// can say which address the code has (Found.HostUnknown). Of texts of one record given
// in both ways the whole ones say the address; other texts do not.
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
// # Pictures
//
// A JPEG (baseline or progressive; grey, colour or the four printing colours) or a
// PNG (of any kind) is turned into its brightness, set upright as its Exif segment
// says, and searched for QR codes by package picture. What is transparent counts as
// white. Other formats are an error that names the format and says what to do.
//
// All the codes of a record have to be there, in any order. Other people's codes,
// labels and damaged texts beside a record are left alone. Two records in one
// picture, or a record and a part of another, are an error; so they are in a text. The
// search ends where every code seen is read: beside a large code one of far smaller
// modules may not be seen, be it another record's or a part of the same. Where parts are missing
// the error says which, and holds the texts that there were (InputError.Texts): with
// those of further pictures they go to FromTexts. Where no code can be read the error
// says how far the reading got and what would help: none seen (ErrNoCode), seen and
// not read (ErrUnread), somebody else's (ErrOtherCode).
//
// # Scans
//
// A PDF in which neither the strict reading nor the search finds an envelope is
// searched for pictures: streams of image objects, found by their first words and not
// by the cross-reference table, so that object streams and damaged tables do not
// matter; of an object that is there twice the last counts. This is no general PDF
// reader. It takes
//
//	DCTDecode       JPEG, perhaps deflated as a whole; a strip of the size that the
//	                PDF says
//	FlateDecode     pixels of 1, 2, 4, 8 or 16 bits in grey, RGB, CMYK, one ink, a
//	                palette or an ICC space, with TIFF or PNG prediction
//	CCITTFaxDecode  group 4, and group 3 of one dimension with line ends
//	none            pixels as above
//
// and names other kinds (JBIG2, JPEG 2000) in the error. Pictures of equal width and
// form that are at most half as high as wide are strips of one page if they follow
// one another. A first quick look goes over all pictures; where it finds no whole
// record a thorough one follows within the limits, pages with codes first. Found.Scan
// says that the record was read off a picture: of the page nothing was read.
//
// # Limits
//
// A PDF is at most 8 MiB, a record file 16 KiB, a text 64 KiB, a picture 32 MiB. A
// PDF up to 32 MiB is taken for a scan: nothing but its pictures is looked at. A
// stream of a report inflates to at most 4 MiB and all of them to 16 MiB; a search
// inflates at most 64 MiB in all. Over the limit is an error. Only of a single stream
// that is longer than 4 MiB, a picture as a rule, does a search look at the first
// 4 MiB and leave the rest.
//
// A picture has at most 50.3 million pixels (8192 x 6144), and decoding it takes at most 176 MiB,
// reckoned from its header before anything is decoded: that is a photograph of 50
// million pixels, a progressive JPEG of 21 million (11 in full colour resolution), or
// a PNG in colour of 36 million. A JPEG has at most 64 scans, since each goes over
// the whole picture. A scan-only PDF has at most 16 pictures of 90 million pixels
// together, in at most 10,000 strips and other image objects; those stored as pixels have
// at most 270 million bytes together, 90 million pixels in colour of 8 bits, and those
// that are deflated at most 12 MiB. So no input takes more than 256 MiB or 10 s of a processor. Pictures of
// over 4 million pixels are worked on one at a time, however many inputs are read at
// once, so that several together take hardly more memory than one.
package source

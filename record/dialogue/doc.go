// Package dialogue asks questions one after another and keeps the answers, so that
// a session may be cut short anywhere and gone on with.
//
// A Script is a plain function that asks in the order of the work:
//
//	func(a *dialogue.Asker) {
//		date := a.Ask(dialogue.Question{Key: "date", Text: "Date", Offer: "2026-05-04", Read: readDate})
//		hours := a.Ask(dialogue.Question{Key: "hours", Text: "Hour meter", Read: readHours})
//		...
//	}
//
// It is run from its beginning after each answer. Ask gives the answer that was
// kept under the question's key; at the first question without one the script has
// come as far as it can: that question waits, and Ask gives "" for it and for all
// after it. So a script has to come to its end over empty answers, it must do
// nothing but work out what to ask and say, and it may ask one thing or another by
// what was answered before.
//
// Going back takes the last answer away and offers it again; so does going back once
// more with the one before. Answers further on than the question that waits stay as
// they are, and what was taken back is kept beside them, marked, until it is given
// again. Where another answer is given, what was said about the former is forgotten:
// the keys of such questions begin with its own.
//
// Answers are kept as text, as they were typed but for what the question's Read
// makes of them: a letter becomes the word that it stands for, an empty line what
// was offered. Given back to the same script (Restore), they lead to the same
// place.
package dialogue

package verify

import (
	"hourseal/record"
	"hourseal/record/schedule"
)

// The headings of the answers, in their order.
const (
	headWrong     phrase = "What is wrong"
	headDo        phrase = "What to do"
	headWhat      phrase = "What it is"
	headWho       phrase = "Who signed"
	headUnaltered phrase = "Is it unaltered"
	headMachine   phrase = "Is it about this machine"
	headWhen      phrase = "When, and who says so"
	headDue       phrase = "What falls due next"
	headNotProved phrase = "What this does not prove"
	headAsk       phrase = "Ask the yard or the seller"
	headDoWithIt  phrase = "What to do with it"
	headRecord    phrase = "What the record says"
	headList      phrase = "What the list says"
)

// What is wrong with what is altered or cannot be read.
const (
	wrongBytes     phrase = "The record's bytes are not the ones that were signed, or the key that it names did not sign them."
	wrongKey       phrase = "Under keys of that kind a signature proves nothing, and no program of ours makes them."
	wrongForm      phrase = "It is signed, but not in the form of a record that this program reads. {why}"
	newerProgram   phrase = "A newer program may read it; if none does, ask the yard for the report as it was issued."
	askAsIssued    phrase = "Ask the yard, on a number that you found yourself, for the report as it was issued."
	keyStatements  phrase = "these are key statements of a yard, and no service record"
	listInPDF      phrase = "this PDF holds a signed list of records, and no record"
	hintListInPDF  phrase = "ask for the list as a file of its own, and for the reports"
	whyItSpeaks    phrase = "Why: {why}"
	strangersWord  phrase = "It counts where the two have one signer; a stranger's word on another's record changes nothing."
	cannotRenderIt phrase = "this program cannot make that page"
)

var hintKeyStatements = choice{
	"give them beside a report: hourseal verify REPORT --keys FILE",
	"give the report itself: the key statements that it needs come with it",
}

// Who signed.
const (
	key            phrase = "Key {fingerprint}"
	nobodyKnows    phrase = "We do not know who made this. Anyone can make such a file. Ring the yard on a number you found yourself and ask for its fingerprint."
	trustedFrom    phrase = ", trusted from {day}"
	trustedUntil   phrase = ", until {day}"
	keyCompromised phrase = "The key was revoked from {day}: compromised. Whoever has it can write any earlier date, so the date in the record proves nothing."
	keyNotValid    phrase = "The key was not valid on the day of issue that the record gives: {why}. Ask the yard for a report under a key that is."
	keyRetired     phrase = "The key is no longer used: revoked from {day}, retired."
	keyTakenOver   phrase = "The key is no longer used: another took over on {day}."
	keysUnread     phrase = "The file brings key statements that cannot be read, so nothing is made of them: {why}."
	keyNotCounted  phrase = "Not counted: {statement}; {why}."
	keysForeign    phrase = "Key statements about keys that you have not named, of which nothing is made: {count}."
)

var (
	nameGiven = choice{
		"{name}: the name that you gave this key{since}.",
		"{name}: the name that this page has for this key{since}.",
	}
	nameTakenOver = choice{
		"{name}: the name that you gave the key {fingerprint}{since}. In a statement signed by the key before it, this one takes over from {from}.",
		"{name}: the name that this page has for the key {fingerprint}{since}. In a statement signed by the key before it, this one takes over from {from}.",
	}
	nameIt = choice{
		"Key {fingerprint}. If it is theirs, ask for their .pub file and name it: hourseal trust add FILE --name NAME",
		"Key {fingerprint}. If it is theirs, ask for the line of their .pub file and add it under 'Add a key'.",
	}
	wouldHelp = choice{
		"What would help: your own note of the day on which you got this report, or a record by another signer that cites it; hourseal history takes both. Else ask the yard whether this record is theirs.",
		"What would help: your own note of the day on which you got this report, or a record by another signer that cites it. Else ask the yard whether this record is theirs.",
	}
)

// kindLines say in the signer's words who it is that signs, where it is no yard.
var kindLines = map[record.IssuerKind]struct{ record, list phrase }{
	record.OwnerIssuer: {
		"It is an owner's own record, by its own word: the one who signed owns the machine, and no yard vouches for the work.",
		"It is an owner's own list, by its own word: the one who signed owns the machine, and no yard vouches for it.",
	},
	record.SurveyorIssuer: {
		"It is a surveyor's record, by its own word.",
		"It is a surveyor's list, by its own word.",
	},
}

// Is it unaltered.
const (
	recordUnaltered phrase = "The record: unaltered since it was signed. Record {id}."
	listUnaltered   phrase = "The list: unaltered since it was signed. List {id}."

	pageNotLookedAt phrase = "The page: not looked at. What the paper itself says was not compared with the record: do that yourself."
	pageInPicture   phrase = "The paper: only its code was read off the picture. What the paper itself says was not compared with the record: do that yourself."
	pageNone        phrase = "The page: none in this file. What a printed report says was not compared with it: do that yourself."
	pageOriginal    phrase = "The page: this PDF is the page of the record, byte for byte."
	pageDeflated    phrase = "The page: this PDF shows the page of the record; only its compression differs."
	pageNotCompared phrase = "The page: could not be compared. {why}"
	pageNotOriginal phrase = "The page: not the original. {why}"
	pageScan        phrase = "The page: the code was read off a picture in this PDF, as in a scan. What its pages say was not compared with the record."

	lineAdded   phrase = "Page {page} shows {received}; the record's page does not."
	lineMissing phrase = "Page {page} does not show {fresh}; the record's page does."
	lineOther   phrase = "Page {page} shows {received}; the record's page has {fresh}."

	fileSame     phrase = "{name}: at hand, the same as when it was signed."
	fileOther    phrase = "{name}: the file at hand is not the one that was signed ({place})."
	fileAskForIt phrase = "It says nothing against the record. Ask who gave it to you for the file as it was signed."
	fileLoose    phrase = "{name}: another file of that name is at hand ({place}); it may belong to another record."
	oneFile      phrase = "1 file is named in the record and was not at hand"
	manyFiles    phrase = "{count} files are named in the record and were not at hand"
	filesNamed   phrase = ": {names}"

	otherCode       phrase = "the code on it is not the one that the record calls for"
	codeNoAddress   phrase = "The code has no address in it, the record names {host}."
	codeLeadsAway   phrase = "The code leads to {found}, the record names {host}. Do not follow it."
	listLeadsAway   phrase = "The code leads to {found}; a list names no address. Do not follow it."
	addressNotGiven phrase = "The address in the code was not seen here, so it was not compared with the one that the record names."
	addressUnseen   phrase = "The address in the code was not seen here. A list names none: if the code has one, do not follow it."
)

var (
	// Below a page that is not, or could not be shown to be, the record's. It says
	// nothing of whether the record can be relied on.
	notByThePage = choice{
		"What it shows may not be what was signed; a file that another program only saved again looks like this too. Ask for it as it was issued. To read what was signed: hourseal verify FILE --content",
		"What it shows may not be what was signed; a file that another program only saved again looks like this too. Ask for it as it was issued. What was signed stands below, under 'What the record says'.",
	}
	goByTheRecord = choice{
		"What it shows may or may not be what was signed. To read what was signed: hourseal verify FILE --content",
		"What it shows may or may not be what was signed: go by what was signed, which stands below, under 'What the record says'.",
	}
	compareScan = choice{
		"Compare it yourself, or ask for the PDF as it was issued. To read what was signed: hourseal verify FILE --content",
		"Compare it yourself, or ask for the PDF as it was issued. What was signed stands below, under 'What the record says'.",
	}
)

// filesNotAtHand is about the files that a record names, where there are any.
var filesNotAtHand = choice{
	"{count}{names}. To compare, lay beside the report what you have of it, or give it: --files PATH",
	"{count}{names}. Files are not compared here.",
}

// Is it about this machine.
const (
	serialSame      phrase = "The serial number that you gave is the {thing}'s."
	serialProbably  phrase = "The serial number is probably the same; O and 0, I and 1 or leading zeros differ. Look at the plate again."
	serialDifferent phrase = "The serial number that you gave is not the {thing}'s. Look at the plate again; if you gave it rightly, this is about another machine."

	meterBehind    phrase = "The meter that you read shows fewer hours than the record: another machine, or another meter since."
	meterAhead     phrase = "The meter that you read has run on since the record, or stands where it stood."
	meterUnlike    phrase = "The hours in the record {why}: the meter that you read was not compared."
	hoursEstimated phrase = "are an estimate, because its meter did not run"
	hoursOfVoided  phrase = "are those of the record that it declares void"
	listNoHours    phrase = "A list holds no hours: the meter that you read was not compared."
)

var serialNotAsked = choice{
	"Not compared. Read the serial number off the engine's plate and give it: --serial TEXT",
	"Not compared. Read the serial number off the engine's plate and type it in, under 'Serial number on the plate'.",
}

// When, and who says so.
const (
	writtenOn  phrase = "Date written by the issuer: {content}issued {time}. It rests on the issuer's word and clock."
	workOn     phrase = "work on {day}, "
	completeTo phrase = "complete to {day}, "
	heldToday  phrase = "Known to exist no later than: today, because you hold it. Nobody else vouches for an earlier day."
)

// What it does not prove, and what to do with a list.
var (
	notProved = []phrase{
		"That the work was done, or done well; that the meter was true; that nothing happened since.",
		"That no record is missing or newer. Ask for the newest: this one may have been corrected.",
	}
	listNotProved = []phrase{
		"That nothing else was done. Records of other yards are not in it, nor any that were issued since, nor work that no record was made of.",
		"That the list is whole: it is the word of who signed it, made for whoever it names.",
	}
	holdToList = choice{
		"Hold the reports that you have to it: hourseal history FILE... with this list among them. A record that it names and you do not have is missing: ask for it.",
		"Hold the reports that you have to it. A record that it names and you do not have is missing: ask for it.",
	}
)

// What falls due next.
const (
	dueOn          phrase = "By this record, on {day}, and only if nothing was done since. The maker's handbook governs."
	dueAtHours     phrase = "By this record, on {day} with {hours} h on the meter, and only if nothing was done since. The maker's handbook governs."
	dueHoursUnlike phrase = "Hours were not compared: the record's are an estimate."
	dueDayBefore   phrase = "Not worked out: today is {day} by this clock, which is before the day of the record."

	dueTaskLine    phrase = "{title}: {state}, {points}."
	dueOpenLine    phrase = "{title}: {points}."
	dueUntold      phrase = "not shown to be due"
	dueAt          phrase = "at {hours} h"
	dueAtReading   phrase = "at {reading} h on the meter"
	dueAtTotal     phrase = "at {hours} h in total"
	dueOnDate      phrase = "on {day}"
	dueIn          phrase = " (in {amount})"
	dueAgo         phrase = " ({amount} ago)"
	dueAtLeastAgo  phrase = " (at least {amount} ago)"
	dueToday       phrase = " (today)"
	dueLookAgain   phrase = "to be looked at again {points}"
	duePointsPast  phrase = "{points} and {more}"
	duePointsAhead phrase = "{points} or {more}"
	dueFromService phrase = "There is no record of it: counted from the entry into service."
	dueFromStated  phrase = "Counted from what was stated, not from a record."
	dueRest        phrase = "Besides these: {states}."
	oneDay         phrase = "1 day"
	manyDays       phrase = "{count} days"
)

var (
	dueReadMeter = choice{
		"Hours run since were not compared: read the hour meter and give it: --hours N",
		"Hours run since were not compared: read the hour meter and type it in, under 'Hour meter now'.",
	}
	dueStates = map[schedule.State]phrase{
		schedule.Overdue: "overdue", schedule.Now: "due", schedule.Soon: "due soon", schedule.Later: "later",
	}
)

// What to ask the yard or the seller.
const (
	askOverfilled  phrase = "The level was read above the upper mark on {day}: was oil drawn down before the engine ran?"
	askLeak        phrase = "A leak was seen on {day}: what was done about it?"
	askOil         phrase = "The oil filled on {day} is not one that the machine file names: why, and was it changed since?"
	askOldReading  phrase = "The hour meter was changed before {day} and the old reading is not known: what do older papers say?"
	askBasis       phrase = "The hours on {day} are an estimate: what is it based on?"
	askLastDone    phrase = "Due on {day}, and the report does not speak of it: {tasks}. When was that last done?"
	askAndMore     phrase = "; and {count} more"
	askWhatGotIn   phrase = "On {day} more {systems} was in than had been left in and topped up: what got in, and was it put right?"
	askDoneAboutIt phrase = "{seen} on {day}: what was done about it?"
	seenIn         phrase = "{what} seen in the {system}"
	askPutOff      phrase = "{what}: put off on {day}{why}. When was it done?"
	askLeft        phrase = "{what}: a defect was found and left on {day}{why}. What was done about it?"
	askFound       phrase = "{what}: to be looked at again{at}. What was found?"
	theTechnician  phrase = "the technician"
)

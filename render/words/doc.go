// Package words turns values into the words that people read: the captions of a
// report, the sentence of each finding, and the cautions. The words themselves
// stand in templates/words, one YAML file each; what is loaded, once, is the JSON
// that is made of it.
//
// # Phrases
//
// A phrase is text with places to fill: {name}. What stands in square brackets
// is left out when any place inside it has nothing to fill it. A place outside
// brackets with nothing to fill it reads "not stated", so that a record made
// by a stranger can never make a phrase fail. Figures that are filled in are
// never read as places or brackets again.
//
// # Findings
//
// A finding's sentence states a fact about the record. It says "no record of",
// never "not done"; a pattern is put as a question; nobody is named. Its figures
// are printed by their unit: hours "12.6 h", days "37 days", dates ISO 8601,
// levels "1.18", minutes "4 min", volumes in litres, temperatures in °C. Ids of
// tasks and systems are printed with their hyphens as spaces and a machine's id as it
// is. Where the yard reads them, they are as it writes figures: [FindingIn].
package words

package qrtext

import _ "embed"

//go:embed dictionary-1.bin
var dictionary1 []byte

// dictionaries are by their number: the bytes that may be referred to as if they
// stood before the envelope. Each stays as it is for ever, since texts were
// printed with it; a better one takes the next number and another format digit.
var dictionaries = [...][]byte{0: nil, 1: dictionary1}

// writtenDictionary is the number of the one that Encode deflates with, for formats 4
// and 5, and dictionaryOf that of each format that holds a record or a part of one.
const writtenDictionary = 1

var dictionaryOf = map[byte]int{formatPlainWhole: 0, formatPlainPart: 0, formatWhole: 1, formatPart: 1}

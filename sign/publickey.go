package sign

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/binary"
	"errors"
	"fmt"
	"strings"
	"unicode"
)

// PublicKey is an Ed25519 public key in its 32-byte encoding, RFC 8032 section
// 5.1.2. The zero value is a key of small order, which Check refuses.
type PublicKey [32]byte

// keyType is the SSH name of Ed25519 keys, RFC 8709 section 4.
const keyType = "ssh-ed25519"

// makeKeyHint is what a person without a usable key has to type.
const makeKeyHint = "make one with: ssh-keygen -t ed25519 -f FILE"

// maxKeyFileBytes bounds what the parsers of key files look at. An Ed25519 key
// file has some 400 bytes; a large RSA file, which gets a helpful refusal, 7,000.
const maxKeyFileBytes = 64 << 10

// ParsePublicKey reads one OpenSSH public key line, as in a .pub file:
// "ssh-ed25519 BASE64 comment". Blank lines and lines that begin with # are
// passed over, and so is a byte-order mark; a second key is an error. Options before the key type are
// refused, since their limits would be lost. In the comment, characters that
// do not print become U+FFFD. The key passes [PublicKey.Check].
func ParsePublicKey(opensshLine []byte) (PublicKey, string, error) {
	var none PublicKey
	if len(opensshLine) > maxKeyFileBytes {
		return none, "", errors.New("public key file is far too long: give the .pub file of one ed25519 key")
	}
	if bytes.Contains(opensshLine, []byte("PRIVATE KEY-----")) {
		return none, "", errors.New("this is a private key: give the .pub file beside it, and keep this one to yourself")
	}
	var line string
	for l := range strings.Lines(strings.TrimPrefix(string(opensshLine), "\uFEFF")) {
		l = strings.TrimSpace(l)
		if l == "" || strings.HasPrefix(l, "#") {
			continue
		}
		if line != "" {
			return none, "", errors.New("more than one public key: give one line")
		}
		line = l
	}
	if line == "" {
		return none, "", errors.New(`no public key: want a line such as "ssh-ed25519 AAAA…" from a .pub file`)
	}
	kind, rest := cutBlank(line)
	encoded, comment := cutBlank(rest)
	if kind != keyType {
		if isOtherKeyType(kind) {
			return none, "", fmt.Errorf("key of type %s: an ed25519 key is needed, %s", printable(kind), makeKeyHint)
		}
		return none, "", errors.New(`not a public key line: it must begin with "ssh-ed25519 "`)
	}
	blob, err := base64.StdEncoding.Strict().DecodeString(encoded)
	if err != nil {
		return none, "", errors.New("public key is damaged: its base64 does not decode; copy the whole line")
	}
	key, err := keyFromBlob(blob)
	if err != nil {
		return none, "", err
	}
	return key, printable(comment), nil
}

// cutBlank cuts s at its first run of spaces or tabs.
func cutBlank(s string) (before, after string) {
	i := strings.IndexAny(s, " \t")
	if i < 0 {
		return s, ""
	}
	return s[:i], strings.TrimLeft(s[i:], " \t")
}

// isOtherKeyType recognises the names of the other SSH key and certificate
// types, so that the refusal can say what is needed instead.
func isOtherKeyType(kind string) bool {
	for _, start := range []string{"ssh-", "ecdsa-", "sk-ssh-", "sk-ecdsa-", "rsa-"} {
		if strings.HasPrefix(kind, start) && len(kind) <= 80 {
			return true
		}
	}
	return false
}

// printable replaces what does not print, so that text from a key file cannot
// steer the terminal it is shown on.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsGraphic(r) || r > 0xFFFF {
			return '\uFFFD'
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
}

// blobHead begins the SSH wire form of an Ed25519 public key, RFC 8709 section
// 4: two strings, each behind its length in four bytes, the second 32 long.
var blobHead = append(binary.BigEndian.AppendUint32(nil, uint32(len(keyType))), keyType+"\x00\x00\x00\x20"...)

func (k PublicKey) blob() []byte {
	return append(bytes.Clone(blobHead), k[:]...)
}

func keyFromBlob(blob []byte) (PublicKey, error) {
	var key PublicKey
	if len(blob) != len(blobHead)+len(key) || !bytes.HasPrefix(blob, blobHead) {
		return PublicKey{}, errors.New("public key is damaged: its inside is not that of an ed25519 key; copy the whole line")
	}
	copy(key[:], blob[len(blobHead):])
	if err := key.Check(); err != nil {
		return PublicKey{}, err
	}
	return key, nil
}

// Fingerprint is the key's SHA-256 fingerprint as ssh-keygen -l prints it:
// "SHA256:" and 43 characters of base64 without padding.
func (k PublicKey) Fingerprint() string {
	sum := sha256.Sum256(k.blob())
	return "SHA256:" + base64.RawStdEncoding.EncodeToString(sum[:])
}

// OpenSSHLine is the key as one line of a .pub file, without the newline. An
// empty comment is left out; characters in it that do not print become U+FFFD.
func (k PublicKey) OpenSSHLine(comment string) string {
	line := keyType + " " + base64.StdEncoding.EncodeToString(k.blob())
	if comment != "" {
		line += " " + printable(comment)
	}
	return line
}

package verifytest_test

import (
	"bytes"
	"crypto/ed25519"
	"crypto/sha256"
	"encoding/base64"
	"encoding/binary"
	"encoding/hex"
	"slices"

	"hourseal/sign"
)

// Everything signed in the kit is put together here by hand, from RFC 8949, 9052 and
// 8032 and the layout that package sign describes, so that the kit does not agree with
// the program because both are the program.

// The keys of the kit: 32 times one byte is the seed of each (RFC 8032 section 5.1.5).
const (
	yardSeed     = 7
	nextSeed     = 21 // the yard's next key
	recoverySeed = 22 // the yard's recovery key
	strangerSeed = 9
	surveyorSeed = 13
)

// The words that are signed with each kind of thing.
const (
	asRecord    = "hourseal record v1"
	asStatement = "hourseal key statement v1"
	asList      = "hourseal record list v1"
)

func privateKey(seed byte) ed25519.PrivateKey {
	return ed25519.NewKeyFromSeed(bytes.Repeat([]byte{seed}, ed25519.SeedSize))
}

func publicKey(seed byte) []byte { return privateKey(seed).Public().(ed25519.PublicKey) }

func trustedKey(seed byte) sign.PublicKey { return sign.PublicKey(publicKey(seed)) }

// byteString is a CBOR byte string with the shortest head.
func byteString(b []byte) []byte { return append(head(2, uint64(len(b))), b...) }

// head is a CBOR head of a major type, RFC 8949 section 3, in its shortest form.
func head(major byte, n uint64) []byte {
	first := major << 5
	switch {
	case n < 24:
		return []byte{first | byte(n)}
	case n < 1<<8:
		return []byte{first | 24, byte(n)}
	case n < 1<<16:
		return binary.BigEndian.AppendUint16([]byte{first | 25}, uint16(n))
	case n < 1<<32:
		return binary.BigEndian.AppendUint32([]byte{first | 26}, uint32(n))
	default:
		return binary.BigEndian.AppendUint64([]byte{first | 27}, n)
	}
}

// protectedHeader is alg (1) = -19 and kid (4) = the key.
func protectedHeader(key []byte) []byte {
	return slices.Concat([]byte{0xA2, 0x01, 0x32, 0x04, 0x58, 0x20}, key)
}

// toBeSigned is the Sig_structure of RFC 9052 section 4.4.
func toBeSigned(purpose string, key, payload []byte) []byte {
	return slices.Concat([]byte("\x84\x6aSignature1"), byteString(protectedHeader(key)), byteString([]byte(purpose)), byteString(payload))
}

// envelope is the COSE_Sign1 of RFC 9052 section 4.2, of whatever signature.
func envelope(key, payload, signature []byte) []byte {
	return slices.Concat([]byte{0xD2, 0x84}, byteString(protectedHeader(key)), []byte{0xA0}, byteString(payload), byteString(signature))
}

// seal signs a payload of any content.
func seal(purpose string, payload []byte, seed byte) []byte {
	key := publicKey(seed)
	return envelope(key, payload, ed25519.Sign(privateKey(seed), toBeSigned(purpose, key, payload)))
}

// idOf is the id of a record or list.
func idOf(envelope []byte) string {
	sum := sha256.Sum256(envelope)
	return hex.EncodeToString(sum[:])
}

// fingerprintOf is the fingerprint of the key in an envelope, as ssh-keygen -l prints
// it: SHA-256 of the key's SSH wire form, RFC 8709 section 4.
func fingerprintOf(envelope []byte) string {
	key := envelope[10:42]
	sum := sha256.Sum256(slices.Concat([]byte("\x00\x00\x00\x0bssh-ed25519\x00\x00\x00\x20"), key))
	return "SHA256:" + base64.RawStdEncoding.EncodeToString(sum[:])
}

// A key statement's kinds and reasons, as sign.StatementContent numbers them.
const (
	renews     = 1
	revokes    = 2
	mayRevoke  = 3
	retired    = 1
	compromise = 2
)

// stated is a key statement about the key of a seed.
type stated struct {
	kind      int
	of, other byte // seeds; other is 0 in a revocation
	from      string
	why       int
	at        string // the day on which it is stated, at 00:00 UTC
	number    int
	signer    byte // 0: the key that it is about
}

// statements is a file of key statements, in the order given.
func statements(all ...stated) []byte {
	var file []byte
	for _, s := range all {
		pairs := [][]byte{{1, 1}, {2, byte(s.kind)}, append([]byte{3}, byteString(publicKey(s.of))...)}
		if s.other != 0 {
			pairs = append(pairs, append([]byte{4}, byteString(publicKey(s.other))...))
		}
		if s.from != "" {
			pairs = append(pairs, append([]byte{5}, head(0, uint64(daysOf(s.from)))...))
		}
		if s.why != 0 {
			pairs = append(pairs, []byte{6, byte(s.why)})
		}
		pairs = append(pairs, append([]byte{7}, head(0, uint64(daysOf(s.at))*86_400)...), append([]byte{8}, head(0, uint64(s.number))...))
		payload := slices.Concat(head(5, uint64(len(pairs))), slices.Concat(pairs...))
		signer := s.of
		if s.signer != 0 {
			signer = s.signer
		}
		file = append(file, seal(asStatement, payload, signer)...)
	}
	return file
}

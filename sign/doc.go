// Package sign seals and opens bytes: keys kept in OpenSSH files or in
// ssh-agent, the signed envelope, the record id, and the reader's list of whom
// they trust. What the bytes mean is the business of package record.
//
// # Envelope
//
// An envelope is a COSE_Sign1 message (RFC 9052 section 4.2), tagged, in
// exactly these bytes and no others:
//
//	D2                        tag 18, COSE_Sign1
//	84                        array of four
//	58 26                     protected header, a byte string of 38 bytes:
//	  A2                        map of two
//	  01 32                     alg (1): -19, Ed25519 (RFC 9864)
//	  04 58 20 <32 bytes>       kid (4): the signer's public key
//	A0                        unprotected header, empty
//	<head> <payload>          byte string, shortest length head, 1 to 8192 bytes
//	58 40 <64 bytes>          Ed25519 signature (RFC 8032), R then S
//
// Since only one encoding is accepted, no second envelope can be made from a
// first one without the signer: the SHA-256 of the envelope is its [ID].
//
// What is signed is the Sig_structure of RFC 9052 section 4.4:
//
//	84                        array of four
//	6A "Signature1"           context
//	58 26 <38 bytes>          protected header, as above
//	<head> <purpose>          external_aad, the ASCII text of the Purpose
//	<head> <payload>          the payload, as in the envelope
//
// The [Purpose] keeps kinds apart: an envelope sealed as a record does not open
// as a key statement, nor the other way round.
//
// # Keys
//
// A public key is accepted only in its canonical encoding (y below p, RFC 8032
// section 5.1.3) and when it is not a point of small order: under such a key
// one fixed signature would fit every message. [Open] checks the lengths first,
// then every fixed byte, then the key, and then verifies over the received
// bytes with crypto/ed25519, which refuses S >= L and compares R as bytes.
//
// # Trust
//
// The trust file is YAML, a list of whom the reader knows by which key:
//
//   - name: Ellery Slip Boatyard
//     key: ssh-ed25519 AAAAC3NzaC1lZDI1NTE5AAAAINdamAGCsQq31Uv+08lkBzoO4XLz2qYjJa8CGmj3B1Ea
//     from: 2026-01-15
//     until: 2029-12-31
//     note: fingerprint read out over the telephone
//     revoked: { from: 2028-03-01, why: compromised }
//
// Only name and key are needed. Dates are days in UTC, the first and the last
// on which the key counts; an absent date is no bound. why is retired or
// compromised.
//
// # Keys for years
//
// A key statement is an envelope sealed as [KeyStatementV1]: a renewal, by which a
// new key takes over, a revocation, or the naming of a recovery key that may revoke.
// Its payload stands at [StatementContent], a file of several (keys.cose) at
// [ParseStatements]. [TrustList.With] follows them from the keys that the reader
// trusts, and has the table of who may state what and which of several counts.
// [Judge] has the table of what a signature is worth under a key that was renewed,
// retired or compromised.
//
// No function here reads the clock, a terminal, the network or, except through
// an [io.Reader] it is handed, randomness. The one exception is stated at
// [PrivateKey.MarshalOpenSSH].
package sign

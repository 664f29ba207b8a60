package sign

import (
	"bytes"
	"crypto/ed25519"
	"encoding/hex"
	"encoding/json"
	"errors"
	"os"
	"slices"
	"testing"
)

// RFC 8032 section 7.1: TEST 1, TEST 2, TEST 3 and TEST SHA(abc).
var rfc8032 = []struct{ name, seed, public, message, signature string }{
	{
		"TEST 1",
		"9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
		"d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
		"",
		"e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
	}, {
		"TEST 2",
		"4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
		"3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
		"72",
		"92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
	}, {
		"TEST 3",
		"c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
		"fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
		"af82",
		"6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
	}, {
		"TEST SHA(abc)",
		"833fe62409237b9d62ec77587520911e9a759cec1d19755b7da901b96dca3d42",
		"ec172b93ad5e563bf4932c70e1245034c35467ef2efd4d64ebf819683467e2bf",
		"ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f",
		"dc2a4459e7369633a52b1bf277839a00201009a3efbf3ecb69bea2186c26b58909351fc9ac90b3ecfdfbc7c66431e0303dca179c138ac17ad9bef1177331a704",
	},
}

func TestRFC8032(t *testing.T) {
	for _, v := range rfc8032 {
		t.Run(v.name, func(t *testing.T) {
			k, err := NewKey(bytes.NewReader(unhex(t, v.seed)))
			if err != nil {
				t.Fatal(err)
			}
			if got := k.Public(); got != publicOf(t, v.public) {
				t.Errorf("public key %x", got)
			}
			message, want := unhex(t, v.message), unhex(t, v.signature)
			got, err := k.Sign(message)
			if err != nil || !bytes.Equal(got, want) {
				t.Errorf("signature %x, %v", got, err)
			}
			if err := verify(k.Public(), message, want); err != nil {
				t.Error(err)
			}
			if err := verify(k.Public(), append(message, 0), want); !errors.Is(err, ErrBadSignature) {
				t.Errorf("another message: %v", err)
			}
		})
	}
}

// TestCOSEVector takes eddsa-sig-01 of the COSE working group's examples
// (github.com/cose-wg/Examples, eddsa-examples/eddsa-sig-01.json): COSE_Sign1
// with alg -8, which names the same signatures as -19 does, and no external_aad.
// Its key is that of RFC 8032 TEST 1. What is tested is the Sig_structure.
func TestCOSEVector(t *testing.T) {
	const message = "D28445A201270300A10442313154546869732069732074686520636F6E74656E742E" +
		"58407142FD2FF96D56DB85BEE905A76BA1D0B7321A95C8C4D3607C5781932B7AFB87" +
		"11497DFA751BF40B58B3BCC32300B1487F3DB34085EEF013BF08F4A44D6FEF0D"
	b := unhex(t, message)
	protected, payload, signature := b[3:8], b[13:34], b[36:]
	if hex.EncodeToString(protected) != "a201270300" || string(payload[1:]) != "This is the content." {
		t.Fatalf("vector taken apart wrongly: %x %q", protected, payload)
	}
	toBeSigned := appendSigStructure(nil, protected, "", payload)
	if err := verify(publicOf(t, rfc8032[0].public), toBeSigned, signature); err != nil {
		t.Error(err)
	}
	k, err := NewKey(bytes.NewReader(unhex(t, rfc8032[0].seed)))
	if err != nil {
		t.Fatal(err)
	}
	if got, err := k.Sign(toBeSigned); err != nil || !bytes.Equal(got, signature) {
		t.Errorf("signature %x, %v", got, err)
	}
}

// TestEdgeVectors runs filippo.io/mostly-harmless/ed25519vectors, all
// combinations of small-order and non-canonical A and R, against the policy of
// Open. By its flags, as that package defines them, a signature is good here
// unless
//
//   - A is of small order or not canonical: our Check;
//   - R is not canonical: compared as bytes (RFC 8032 section 5.1.7 decodes R,
//     crypto/ed25519 recomputes it);
//   - the low order parts do not cancel: it would verify with the cofactor only.
func TestEdgeVectors(t *testing.T) {
	file, err := os.ReadFile("testdata/ed25519vectors.json")
	if err != nil {
		t.Fatal(err)
	}
	var vectors []struct {
		A, R, S, M string
		Flags      []string
	}
	if err := json.Unmarshal(file, &vectors); err != nil {
		t.Fatal(err)
	}
	if len(vectors) != 768 {
		t.Errorf("%d vectors", len(vectors))
	}
	seen := map[string]int{}
	for i, v := range vectors {
		has := func(flag string) bool { return slices.Contains(v.Flags, flag) }
		key := publicOf(t, v.A)
		signature := append(unhex(t, v.R), unhex(t, v.S)...)
		err := verify(key, []byte(v.M), signature)
		got := "good"
		switch {
		case errors.Is(err, ErrWeakKey):
			got = "weak"
		case errors.Is(err, ErrBadSignature):
			got = "bad"
		case err != nil:
			t.Fatal(err)
		}
		want := "good"
		switch {
		case has("LowOrderA") || has("NonCanonicalA"):
			want = "weak"
		case has("NonCanonicalR") || has("LowOrderResidue"):
			want = "bad"
		}
		if got != want {
			t.Errorf("vector %d, flags %q: %s, want %s", i, v.Flags, got, want)
		}
		seen[want]++
		if want == "weak" && ed25519.Verify(key[:], []byte(v.M), signature) {
			seen["weak, but crypto/ed25519 takes it"]++
		}
	}
	// The vectors must reach every branch, or the test shows nothing.
	for _, kind := range []string{"good", "bad", "weak", "weak, but crypto/ed25519 takes it"} {
		if seen[kind] == 0 {
			t.Errorf("no vector that is %s", kind)
		}
	}
	t.Log(seen)
}

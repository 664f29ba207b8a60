package sign

import (
	"bytes"
	"crypto/ed25519"
	"crypto/rand"
	"encoding/hex"
	"encoding/json"
	"encoding/pem"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"

	"golang.org/x/crypto/ssh"
)

const testPassphrase = "warm oil drains better"

func TestNewKeyReadsOnlyItsReader(t *testing.T) {
	first, again, other := testKey(t, 3), testKey(t, 3), testKey(t, 4)
	if first.Public() != again.Public() || first.Public() == other.Public() {
		t.Error("the key does not follow from the reader")
	}
	if _, err := NewKey(bytes.NewReader(make([]byte, 31))); !errors.Is(err, io.ErrUnexpectedEOF) {
		t.Errorf("31 bytes of randomness: %v", err)
	}
	if _, err := NewKey(nil); err == nil {
		t.Error("no reader: no error")
	}
	if _, err := NewKey(rand.Reader); err != nil {
		t.Error(err)
	}
}

func TestPrivateKeyDoesNotPrint(t *testing.T) {
	k := testKey(t, 7)
	want := "private key of " + k.Public().Fingerprint()
	for _, verb := range []string{"%v", "%+v", "%#v", "%s", "%q", "%x", "%X", "%d", "%T%v"} {
		for _, value := range []any{k, *k} {
			if got := fmt.Sprintf(verb, value); !strings.HasPrefix(got, want) && verb != "%T%v" {
				t.Errorf("%s: %s", verb, got)
			}
		}
		inside := fmt.Sprintf(verb, struct{ Key *PrivateKey }{k})
		if strings.Contains(strings.ToLower(inside), hex.EncodeToString(k.key[:8])) {
			t.Errorf("%s in a struct: %s", verb, inside)
		}
	}
	//lint:ignore SA9005 that nothing comes out is what is tested
	if b, err := json.Marshal(k); err != nil || string(b) != "{}" {
		t.Errorf("as JSON: %s, %v", b, err)
	}
}

func TestOurKeyFilesComeBack(t *testing.T) {
	k := testKey(t, 7)
	for _, passphrase := range []string{"", testPassphrase} {
		file, err := k.MarshalOpenSSH("yard", []byte(passphrase))
		if err != nil {
			t.Fatal(err)
		}
		back, err := ParsePrivateKey(file, []byte(passphrase))
		if err != nil || !bytes.Equal(back.key, k.key) || back.pub != k.pub {
			t.Errorf("passphrase %q: %v", passphrase, err)
		}
	}
}

func TestPassphraseErrors(t *testing.T) {
	k := testKey(t, 7)
	file, err := k.MarshalOpenSSH("yard", []byte(testPassphrase))
	if err != nil {
		t.Fatal(err)
	}
	_, err = ParsePrivateKey(file, nil)
	var needed *PassphraseNeededError
	if !errors.Is(err, ErrPassphraseNeeded) || !errors.As(err, &needed) || needed.Public != k.Public() {
		t.Errorf("without passphrase: %v", err)
	}
	_, err = ParsePrivateKey(file, []byte(testPassphrase+"!"))
	if !errors.Is(err, ErrWrongPassphrase) || strings.Contains(err.Error(), testPassphrase) {
		t.Errorf("with a wrong one: %v", err)
	}
	open, err := k.MarshalOpenSSH("yard", nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := ParsePrivateKey(open, []byte(testPassphrase)); err != nil {
		t.Errorf("one where none is needed: %v", err)
	}
}

func TestPrivateKeyFilesRefused(t *testing.T) {
	k := testKey(t, 7)
	good, err := k.MarshalOpenSSH("yard", nil)
	if err != nil {
		t.Fatal(err)
	}
	// A file whose public half belongs to another key: signing with it would
	// give the private key away.
	torn := append(append(ed25519.PrivateKey{}, k.key[:32]...), testKey(t, 8).key[32:]...)
	block, err := ssh.MarshalPrivateKey(torn, "yard")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		file []byte
		want string
	}{
		{"nothing", nil, "no private key in the file: an OpenSSH ed25519 key is needed, make one with: ssh-keygen -t ed25519 -f FILE"},
		{"public key", []byte(k.Public().OpenSSHLine("yard")), "this is a public key: give the private key file, the one without .pub"},
		{"cut short", good[:len(good)/2], "no private key in the file"},
		{"PKCS 8", pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: []byte{0x30}}), `key file of kind "PRIVATE KEY": an OpenSSH ed25519 key is needed`},
		{"empty inside", pem.EncodeToMemory(&pem.Block{Type: "OPENSSH PRIVATE KEY"}), "cannot read the key file: invalid openssh private key format; make one with"},
		{"halves of two keys", pem.EncodeToMemory(block), "its public half does not belong to its private half"},
		{"far too long", make([]byte, maxKeyFileBytes+1), "key file is far too long"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if _, err := ParsePrivateKey(c.file, nil); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("got %v, want %q", err, c.want)
			}
		})
	}
}

// TestSSHKeygenReadsOurs: ssh-keygen derives the same public key from our
// files, and prints the same fingerprint.
func TestSSHKeygenReadsOurs(t *testing.T) {
	keygen := outside.Program(t, "ssh-keygen")
	k := testKey(t, 7)
	for _, passphrase := range []string{"", testPassphrase} {
		path := filepath.Join(t.TempDir(), "yard")
		file, err := k.MarshalOpenSSH("yard at Port Ellery", []byte(passphrase))
		if err != nil {
			t.Fatal(err)
		}
		writeFile(t, path, file)
		got := run(t, keygen, "-y", "-P", passphrase, "-f", path)
		if want := k.Public().OpenSSHLine("yard at Port Ellery") + "\n"; got != want {
			t.Errorf("ssh-keygen -y: %q, want %q", got, want)
		}
		if passphrase != "" {
			if _, _, err := tryRun(keygen, "-y", "-P", "another", "-f", path); err == nil {
				t.Error("ssh-keygen opens the file with any passphrase")
			}
		}
		writeFile(t, path+".pub", []byte(got))
		listed := strings.Fields(run(t, keygen, "-l", "-f", path+".pub"))
		if len(listed) < 2 || listed[1] != k.Public().Fingerprint() {
			t.Errorf("ssh-keygen -l: %q, want %s", listed, k.Public().Fingerprint())
		}
	}
}

// TestWeReadSSHKeygens: we read the files that ssh-keygen makes, private and
// public, and refuse other types with what to type.
func TestWeReadSSHKeygens(t *testing.T) {
	keygen := outside.Program(t, "ssh-keygen")
	dir := t.TempDir()
	read := func(path string) []byte {
		b, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	for i, passphrase := range []string{"", testPassphrase} {
		path := filepath.Join(dir, fmt.Sprint("key", i))
		run(t, keygen, "-q", "-t", "ed25519", "-N", passphrase, "-C", "yard key", "-f", path)
		public, comment, err := ParsePublicKey(read(path + ".pub"))
		if err != nil || comment != "yard key" {
			t.Fatalf("public key: %q, %v", comment, err)
		}
		k, err := ParsePrivateKey(read(path), []byte(passphrase))
		if err != nil || k.Public() != public {
			t.Fatalf("private key: %v", err)
		}
		if passphrase != "" {
			if _, err := ParsePrivateKey(read(path), []byte("another")); !errors.Is(err, ErrWrongPassphrase) {
				t.Errorf("wrong passphrase: %v", err)
			}
			_, err := ParsePrivateKey(read(path), nil)
			var needed *PassphraseNeededError
			if !errors.As(err, &needed) || needed.Public != public {
				t.Errorf("no passphrase: %v", err)
			}
		}
	}
	for _, c := range []struct{ kind, bits, passphrase string }{
		{"rsa", "2048", ""}, {"rsa", "2048", testPassphrase}, {"ecdsa", "256", ""}, {"ecdsa", "256", testPassphrase},
	} {
		path := filepath.Join(dir, c.kind+fmt.Sprint(len(c.passphrase)))
		run(t, keygen, "-q", "-t", c.kind, "-b", c.bits, "-N", c.passphrase, "-f", path)
		for _, given := range []string{"", testPassphrase} {
			if _, err := ParsePrivateKey(read(path), []byte(given)); err == nil || !strings.Contains(err.Error(), "ssh-keygen -t ed25519 -f FILE") {
				t.Errorf("%s private key: %v", c.kind, err)
			}
		}
		if _, _, err := ParsePublicKey(read(path + ".pub")); err == nil || !strings.Contains(err.Error(), "ssh-keygen -t ed25519 -f FILE") {
			t.Errorf("%s public key: %v", c.kind, err)
		}
	}
	// A cipher that the reader does not know: the hint must mend it.
	path := filepath.Join(dir, "gcm")
	run(t, keygen, "-q", "-t", "ed25519", "-N", testPassphrase, "-Z", "aes256-gcm@openssh.com", "-f", path)
	if _, err := ParsePrivateKey(read(path), []byte(testPassphrase)); err == nil || !strings.Contains(err.Error(), "ssh-keygen -p -Z aes256-ctr -a 16 -f FILE") {
		t.Errorf("aes256-gcm: %v", err)
	}
	run(t, keygen, "-q", "-p", "-P", testPassphrase, "-N", testPassphrase, "-Z", "aes256-ctr", "-a", "16", "-f", path)
	if _, err := ParsePrivateKey(read(path), []byte(testPassphrase)); err != nil {
		t.Errorf("after the hint: %v", err)
	}
}

func FuzzParsePrivateKey(f *testing.F) {
	k := testKey(f, 7)
	for _, passphrase := range []string{"", testPassphrase} {
		file, err := k.MarshalOpenSSH("yard", []byte(passphrase))
		if err != nil {
			f.Fatal(err)
		}
		block, _ := pem.Decode(file)
		f.Add(block.Bytes)
	}
	f.Fuzz(func(t *testing.T, inside []byte) {
		file := pem.EncodeToMemory(&pem.Block{Type: "OPENSSH PRIVATE KEY", Bytes: inside})
		// Without a passphrase: trying one costs what the file asks for.
		k, err := ParsePrivateKey(file, nil)
		if err != nil {
			return
		}
		signature, err := k.Sign(inside)
		if err != nil || verify(k.Public(), inside, signature) != nil {
			t.Errorf("a key that does not sign: %v", err)
		}
	})
}

package people

import (
	"crypto/subtle"
	"encoding/base64"
	"fmt"
	"strconv"
	"strings"

	"golang.org/x/crypto/argon2"
)

// cost is how slow a hash is made, by Argon2id (RFC 9106).
type cost struct {
	memoryKiB uint32
	passes    uint32
	lanes     uint8
}

var (
	// passwordCost is the second choice of RFC 9106, section 4, for where 2 GiB are too much: 64 MiB, 3 passes, 4 lanes.
	passwordCost = cost{64 << 10, 3, 4}
	// pinCost is the first choice of the OWASP Password Storage Cheat Sheet (from memory): 19 MiB, 2 passes, 1 lane. A change of person must not
	// keep anybody waiting. No cost saves a PIN of four digits from somebody who has the database: only the limit of tries keeps it.
	pinCost = cost{19 << 10, 2, 1}
)

// Length of salt and hash in bytes, as RFC 9106, section 4, has them.
const (
	SaltBytes = 16
	hashBytes = 32
)

// Salt is drawn anew for every hash.
type Salt [SaltBytes]byte

// HashPassword is what is kept of a password: $argon2id$v=19$m=65536,t=3,p=4$salt$hash, the form of the reference implementation.
func HashPassword(password Secret, salt Salt) string { return passwordCost.hash(password, salt) }

// HashPIN is what is kept of a PIN.
func HashPIN(pin Secret, salt Salt) string { return pinCost.hash(pin, salt) }

func (c cost) hash(s Secret, salt Salt) string {
	sum := argon2.IDKey([]byte(s), salt[:], c.passes, c.memoryKiB, c.lanes, hashBytes)
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s", argon2.Version, c.memoryKiB, c.passes, c.lanes, b64.EncodeToString(salt[:]), b64.EncodeToString(sum))
}

var b64 = base64.RawStdEncoding.Strict()

// HashError is a kept hash that cannot be read. It does not hold it.
type HashError struct{ Problem string }

func (e *HashError) Error() string {
	return "a kept password or PIN cannot be read (" + e.Problem + "): set it anew"
}

// Nobody is a hash that no secret fits: what is asked about an unknown person takes as long as about a known one.
func Nobody(password bool) string {
	c := pinCost
	if password {
		c = passwordCost
	}
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s", argon2.Version, c.memoryKiB, c.passes, c.lanes, b64.EncodeToString(make([]byte, SaltBytes)), b64.EncodeToString(make([]byte, hashBytes)))
}

// Fits says whether a secret is that of a kept hash. The comparison takes as long however much of it fits. The error is *HashError.
func Fits(kept string, s Secret) (bool, error) {
	c, salt, want, err := parseHash(kept)
	if err != nil {
		return false, err
	}
	got := argon2.IDKey([]byte(s), salt, c.passes, c.memoryKiB, c.lanes, uint32(len(want)))
	return subtle.ConstantTimeCompare(got, want) == 1, nil
}

// Limits on what a kept hash may ask for: a changed database must not take all memory.
const (
	mostMemoryKiB = 1 << 20
	mostPasses    = 16
)

func parseHash(kept string) (c cost, salt, sum []byte, err error) {
	parts := strings.Split(kept, "$")
	if len(parts) != 6 || parts[0] != "" || parts[1] != "argon2id" || parts[2] != "v="+strconv.Itoa(argon2.Version) {
		return c, nil, nil, &HashError{"it is not of Argon2id, version 19"}
	}
	if _, err := fmt.Sscanf(parts[3], "m=%d,t=%d,p=%d", &c.memoryKiB, &c.passes, &c.lanes); err != nil || fmt.Sprintf("m=%d,t=%d,p=%d", c.memoryKiB, c.passes, c.lanes) != parts[3] {
		return c, nil, nil, &HashError{"its cost cannot be read"}
	}
	if c.passes < 1 || c.passes > mostPasses || c.lanes < 1 || c.memoryKiB < 8*uint32(c.lanes) || c.memoryKiB > mostMemoryKiB {
		return c, nil, nil, &HashError{"its cost makes no sense"}
	}
	salt, errSalt := b64.DecodeString(parts[4])
	sum, errSum := b64.DecodeString(parts[5])
	if errSalt != nil || errSum != nil || len(salt) < 8 || len(sum) < 16 || len(salt) > 64 || len(sum) > 64 {
		return c, nil, nil, &HashError{"its salt or its sum makes no sense"}
	}
	return c, salt, sum, nil
}

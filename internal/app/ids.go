package app

import (
	"crypto/sha256"
	"encoding/binary"

	"kettlefrost/internal/record"
)

// PartID is the id of the nth entry, from 0, of several that belong together under one id: of one form, or of one file.
func PartID(id record.ID, n int) record.ID {
	if n == 0 {
		return id
	}
	return derived(id, "part", n)
}

// VoidID is the id of the entry that takes another back: however often that is asked for, it is taken back once.
func VoidID(id record.ID) record.ID { return derived(id, "void", 0) }

func derived(id record.ID, what string, n int) record.ID {
	sum := sha256.Sum256(binary.BigEndian.AppendUint32(append(id[:], what...), uint32(n)))
	return record.ID(sum[:len(id)])
}

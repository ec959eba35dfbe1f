// Package record is what really happened in a kitchen, as entries that are only ever added. What is in a freezer, where a lot went and
// what a customer owes is never stored as truth: it is folded from the entries, and can be folded again.
//
// Entries form a chain. The hash of an entry is the SHA-256 (FIPS 180-4) of its canonical text, and the text holds the hash of the entry
// before it. The canonical text is twelve netstrings one after another, in this order:
//
//	kettlefrost entry 1   this text itself: what is hashed and how
//	seq                   in decimal, from 1
//	id                    32 hexadecimal digits, lower case
//	kind
//	happened, entered     milliseconds since 1970-01-01 00:00 UTC, in decimal
//	who, device, site
//	corrects              32 hexadecimal digits, lower case; empty when the entry corrects nothing
//	body                  the canonical JSON of the body, byte for byte
//	prev                  64 hexadecimal digits, lower case; 64 zeros in the first entry
//
// A netstring is the number of bytes in decimal, a colon, the bytes and a comma: 5:hello, and 0:, for nothing. An entry is exported as
// one JSON object a line, in which the body stands as it is hashed. This is all it takes to verify an export without the program:
//
//	import hashlib, json, sys
//	prev, seq = "0" * 64, 0
//	for line in sys.stdin.buffer:
//	    e, seq = json.loads(line), seq + 1
//	    body = line[line.index(b',"body":') + 8 : line.rindex(b',"prev":')]
//	    fields = ["kettlefrost entry 1", seq, e["id"], e["kind"], e["happened_ms"], e["entered_ms"],
//	              e["who"], e["device"], e["site"], e["corrects"], body, prev]
//	    fields = [f if isinstance(f, bytes) else str(f).encode() for f in fields]
//	    text = b"".join(b"%d:%s," % (len(f), f) for f in fields)
//	    prev = hashlib.sha256(text).hexdigest()
//	    if (e["seq"], e["hash"]) != (seq, prev): sys.exit("entry %d is not as it was sealed" % seq)
//	print(seq, prev)
//
// What a chain can show: that nothing before a known last hash was changed, removed, put in or moved. What it cannot: that the last
// entries were cut off, or that somebody sealed everything again from some place on. For those, keep the last hash (Head) elsewhere:
// on a printed sheet, in a mail, at a neighbour's.
package record

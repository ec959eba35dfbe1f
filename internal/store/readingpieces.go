package store

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"fmt"
	"io"

	"kettlefrost/internal/record"
)

// A piece holds readings of one probe that lie within less than a day, in the order in which they came. Its first byte says how the rest is
// written: plain, or compressed by DEFLATE (RFC 1951). Each reading is its time and line less those of the one before, what there is of it, its
// temperature less the one before, and its texts; numbers as varints.
const (
	plainPiece    = 0
	deflatedPiece = 1

	longestPiece = 24 * 3_600_000 // milliseconds; a piece is shorter
	mostOfPiece  = 4096           // readings
	worthPacking = 200            // bytes
)

// What there is of a reading.
const (
	hasValue = 1 << iota
	hasRaw
	hasFlags
)

// piece is readings of one probe, with the times between which they lie.
type piece struct {
	from, to record.Instant
	readings []Reading
}

// pieces divides readings of one probe, in their order.
func pieces(readings []Reading) (all []piece) {
	for _, r := range readings {
		if n := len(all); n > 0 {
			last := &all[n-1]
			if from, to := min(last.from, r.At), max(last.to, r.At); to-from < longestPiece && len(last.readings) < mostOfPiece {
				last.from, last.to, last.readings = from, to, append(last.readings, r)
				continue
			}
		}
		all = append(all, piece{r.At, r.At, []Reading{r}})
	}
	return all
}

// packed is the piece as it is kept.
func (p piece) packed() ([]byte, error) {
	data := []byte{plainPiece}
	var before Reading
	for _, r := range p.readings {
		data = r.appendAfter(data, before)
		before = r
	}
	if len(data) < worthPacking {
		return data, nil
	}
	var small bytes.Buffer
	small.WriteByte(deflatedPiece)
	w, err := flate.NewWriter(&small, flate.BestSpeed)
	if err != nil {
		return nil, err
	}
	if _, err := w.Write(data[1:]); err != nil {
		return nil, err
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	if small.Len() >= len(data) {
		return data, nil
	}
	return small.Bytes(), nil
}

func (r Reading) appendAfter(data []byte, before Reading) []byte {
	var has byte
	if r.Valued {
		has |= hasValue
	}
	if r.Raw != "" {
		has |= hasRaw
	}
	if r.Flags != "" {
		has |= hasFlags
	}
	data = binary.AppendVarint(data, int64(r.At-before.At))
	data = binary.AppendVarint(data, int64(r.Line-before.Line))
	data = append(data, has)
	data = binary.AppendVarint(data, r.MilliC-before.MilliC)
	for _, text := range []string{r.Raw, r.Flags} {
		if text != "" {
			data = binary.AppendUvarint(data, uint64(len(text)))
			data = append(data, text...)
		}
	}
	return data
}

// unpacked reads a piece of a probe.
func unpacked(probe string, data []byte) ([]Reading, error) {
	if len(data) == 0 {
		return nil, fmt.Errorf("an empty piece of readings of %s", probe)
	}
	rest := data[1:]
	if data[0] == deflatedPiece {
		var err error
		if rest, err = io.ReadAll(flate.NewReader(bytes.NewReader(rest))); err != nil {
			return nil, fmt.Errorf("a piece of readings of %s: %w", probe, err)
		}
	}
	var all []Reading
	for from := (&pieceReader{data: rest}); len(from.data) > 0; {
		r := Reading{Probe: probe}
		if len(all) > 0 {
			last := all[len(all)-1]
			r.At, r.Line, r.MilliC = last.At, last.Line, last.MilliC
		}
		from.reading(&r)
		if from.broken {
			return nil, fmt.Errorf("a piece of readings of %s is cut off after %d", probe, len(all))
		}
		all = append(all, r)
	}
	return all, nil
}

// pieceReader takes values off a piece, and nothing more once it is broken.
type pieceReader struct {
	data   []byte
	broken bool
}

func (p *pieceReader) reading(r *Reading) {
	r.At += record.Instant(p.varint())
	r.Line += int(p.varint())
	has := p.byte()
	r.MilliC += p.varint()
	r.Valued = has&hasValue != 0
	if has&hasRaw != 0 {
		r.Raw = p.text()
	}
	if has&hasFlags != 0 {
		r.Flags = p.text()
	}
}

func (p *pieceReader) varint() int64 {
	v, n := binary.Varint(p.data)
	p.skip(n)
	return v
}

func (p *pieceReader) byte() byte {
	if len(p.data) == 0 {
		p.broken = true
		return 0
	}
	b := p.data[0]
	p.data = p.data[1:]
	return b
}

func (p *pieceReader) text() string {
	length, n := binary.Uvarint(p.data)
	p.skip(n)
	if p.broken || length > uint64(len(p.data)) {
		p.broken = true
		return ""
	}
	s := string(p.data[:length])
	p.data = p.data[length:]
	return s
}

// skip takes n bytes off; none is a number that is cut off.
func (p *pieceReader) skip(n int) {
	if n <= 0 {
		p.broken, p.data = true, nil
		return
	}
	p.data = p.data[n:]
}

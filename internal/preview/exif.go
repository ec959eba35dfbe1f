package preview

import (
	"bytes"
	"encoding/binary"
)

// orientation is how a camera was held, as it wrote into a JPEG file (Exif 2.3, tag 0x0112 of the first directory); 1, upright, where nothing is
// said or it cannot be read.
func orientation(data []byte) int {
	tiff := exifOf(data)
	if len(tiff) < 8 {
		return 1
	}
	var order binary.ByteOrder = binary.LittleEndian
	if tiff[0] == 'M' {
		order = binary.BigEndian
	}
	at := int64(order.Uint32(tiff[4:]))
	if at+2 > int64(len(tiff)) {
		return 1
	}
	entries := tiff[at+2:]
	for range order.Uint16(tiff[at:]) {
		if len(entries) < 12 {
			return 1
		}
		if order.Uint16(entries) == 0x0112 {
			if o := int(order.Uint16(entries[8:])); o >= 1 && o <= 8 {
				return o
			}
			return 1
		}
		entries = entries[12:]
	}
	return 1
}

// exifOf is what a JPEG file says after the mark of Exif: a TIFF file without a picture. It is nil where there is none.
func exifOf(data []byte) []byte {
	if !bytes.HasPrefix(data, []byte{0xff, 0xd8}) {
		return nil
	}
	for rest := data[2:]; len(rest) >= 4 && rest[0] == 0xff && rest[1] != 0xda; { // up to the picture itself
		size := int(binary.BigEndian.Uint16(rest[2:])) + 2
		if size < 4 || size > len(rest) {
			return nil
		}
		if tiff, ok := bytes.CutPrefix(rest[4:size], []byte("Exif\x00\x00")); ok && rest[1] == 0xe1 {
			return tiff
		}
		rest = rest[size:]
	}
	return nil
}

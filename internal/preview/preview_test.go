package preview

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"testing"
)

var colours = [4]color.RGBA{{200, 30, 30, 255}, {30, 180, 30, 255}, {30, 30, 200, 255}, {230, 220, 40, 255}} // red, green, blue, yellow

// corners is a picture of four colours, one in each corner: red, green, blue, yellow, row by row.
func corners(w, h int) *image.RGBA {
	p := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			p.SetRGBA(x, y, colours[2*(2*y/h)+2*x/w])
		}
	}
	return p
}

func asJPEG(t testing.TB, p image.Image) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := jpeg.Encode(&out, p, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// endian is one of the two ways to write numbers.
type endian interface {
	binary.ByteOrder
	binary.AppendByteOrder
}

// withOrientation puts what a camera writes behind the first mark of a JPEG file.
func withOrientation(data []byte, o uint16, order endian) []byte {
	mark := map[endian]string{binary.LittleEndian: "II", binary.BigEndian: "MM"}[order]
	tiff := order.AppendUint32(order.AppendUint16([]byte(mark), 42), 8)
	tiff = order.AppendUint16(tiff, 2)                                                                                                  // entries
	tiff = order.AppendUint32(order.AppendUint32(order.AppendUint16(order.AppendUint16(tiff, 0x010f), 2), 1), 0)                        // the maker
	tiff = order.AppendUint16(order.AppendUint16(order.AppendUint32(order.AppendUint16(order.AppendUint16(tiff, 0x0112), 3), 1), o), 0) // how it was held
	segment := append([]byte("Exif\x00\x00"), tiff...)
	out := append([]byte{}, data[:2]...)
	out = append(out, 0xff, 0xe1)
	out = binary.BigEndian.AppendUint16(out, uint16(len(segment)+2))
	return append(append(out, segment...), data[2:]...)
}

// seen reads which colour is in each corner.
func seen(t *testing.T, data []byte) (corners [4]int, w, h int) {
	t.Helper()
	p, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	w, h = p.Bounds().Dx(), p.Bounds().Dy()
	for i, at := range []image.Point{{w / 4, h / 4}, {3 * w / 4, h / 4}, {w / 4, 3 * h / 4}, {3 * w / 4, 3 * h / 4}} {
		r, g, b, _ := p.At(at.X, at.Y).RGBA()
		best := 1 << 40
		for k, c := range colours {
			dr, dg, db := int(r>>8)-int(c.R), int(g>>8)-int(c.G), int(b>>8)-int(c.B)
			if d := dr*dr + dg*dg + db*db; d < best {
				best, corners[i] = d, k
			}
		}
	}
	return corners, w, h
}

// The eight ways of the Exif standard: 1 as it is; 6 is a camera held with its right side down, so that the picture is turned to the right.
func TestSmallPicturesStandUpright(t *testing.T) {
	whole := asJPEG(t, corners(400, 200))
	for o, want := range map[uint16]struct {
		corners [4]int
		w, h    int
	}{
		1: {[4]int{0, 1, 2, 3}, 100, 50}, 2: {[4]int{1, 0, 3, 2}, 100, 50}, 3: {[4]int{3, 2, 1, 0}, 100, 50}, 4: {[4]int{2, 3, 0, 1}, 100, 50},
		5: {[4]int{0, 2, 1, 3}, 50, 100}, 6: {[4]int{2, 0, 3, 1}, 50, 100}, 7: {[4]int{3, 1, 2, 0}, 50, 100}, 8: {[4]int{1, 3, 0, 2}, 50, 100},
		0: {[4]int{0, 1, 2, 3}, 100, 50}, 99: {[4]int{0, 1, 2, 3}, 100, 50},
	} {
		for _, order := range []endian{binary.LittleEndian, binary.BigEndian} {
			small, err := Small(withOrientation(whole, o, order), 100)
			if err != nil {
				t.Fatal(err)
			}
			if got, w, h := seen(t, small); got != want.corners || w != want.w || h != want.h {
				t.Errorf("%d, %v: corners %v, %d by %d", o, order, got, w, h)
			}
		}
	}
}

func TestSmallPicturesOfEveryKind(t *testing.T) {
	var out bytes.Buffer
	clear := image.NewRGBA(image.Rect(0, 0, 40, 80)) // lets everything through
	if err := png.Encode(&out, clear); err != nil {
		t.Fatal(err)
	}
	small, err := Small(out.Bytes(), 20)
	if err != nil {
		t.Fatal(err)
	}
	p, err := jpeg.Decode(bytes.NewReader(small))
	if err != nil || p.Bounds().Dx() != 10 || p.Bounds().Dy() != 20 {
		t.Fatalf("%v %v", p, err)
	}
	if r, _, _, _ := p.At(5, 5).RGBA(); r>>8 < 250 {
		t.Errorf("where it lets through it is %d, not white", r>>8)
	}
	if same, err := Small(asJPEG(t, corners(40, 20)), 100); err != nil {
		t.Error(err)
	} else if _, w, h := seen(t, same); w != 40 || h != 20 {
		t.Errorf("a small one became %d by %d", w, h)
	}
	webp, err := base64.StdEncoding.DecodeString("UklGRiQAAABXRUJQVlA4IBgAAAAwAQCdASoBAAEAAgA0JaQAA3AA/vuUAAA=") // one pixel
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Small(webp, 20); err != nil {
		t.Errorf("WebP: %v", err)
	}
}

func TestWhatIsNoPicture(t *testing.T) {
	huge := asJPEG(t, corners(16, 16))
	at := bytes.Index(huge, []byte{0xff, 0xc0}) // the frame: its height and width follow
	binary.BigEndian.PutUint16(huge[at+5:], 65000)
	binary.BigEndian.PutUint16(huge[at+7:], 65000)
	whole := asJPEG(t, corners(16, 16))
	for name, data := range map[string][]byte{"nothing": nil, "a page": []byte("<html>"), "said to be huge": huge, "half of one": whole[:len(whole)/2]} {
		bad := (*Error)(nil)
		if _, err := Small(data, 20); !errors.As(err, &bad) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := Small(whole, 0); err == nil {
		t.Error("a picture without a side")
	}
}

func FuzzSmall(f *testing.F) {
	f.Add(withOrientation(asJPEG(f, corners(8, 8)), 6, binary.BigEndian))
	f.Add([]byte("\xff\xd8\xff\xe1\x00\x08Exif\x00\x00II*\x00\xff\xff\xff\xff"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<16 {
			return
		}
		if o := orientation(data); o < 1 || o > 8 {
			t.Errorf("held %d", o)
		}
		if c, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil && c.Width*c.Height > 1<<20 {
			return // not wrong, but slow
		}
		if small, err := Small(data, 16); err == nil {
			if p, err := jpeg.Decode(bytes.NewReader(small)); err != nil || p.Bounds().Dx() > 16 || p.Bounds().Dy() > 16 {
				t.Errorf("%v", err)
			}
		}
	})
}

func BenchmarkSmallOfACamera(b *testing.B) {
	data := asJPEG(b, corners(4000, 3000))
	for b.Loop() {
		if _, err := Small(data, 480); err != nil {
			b.Fatal(err)
		}
	}
}

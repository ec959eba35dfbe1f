package barcode

import (
	"image"
	"image/color"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/oned"
	"github.com/makiuchi-d/gozxing/qrcode"
	"pgregory.net/rapid"
)

// rendered is a symbol with its quiet zones, so many pixels to a module.
func rendered(s Symbol, scale int) image.Image {
	high, over := s.Rows*scale, s.Quiet*scale
	if s.Linear() {
		high, over = 40*scale, 0
	}
	img := image.NewGray(image.Rect(0, 0, s.AcrossModules()*scale, high+2*over))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	for r := range s.Runs() {
		tall := r.H * scale
		if s.Linear() {
			tall = high
		}
		for y := range tall {
			for x := range r.W * scale {
				img.SetGray((s.Quiet+r.X)*scale+x, over+r.Y*scale+y, color.Gray{})
			}
		}
	}
	return img
}

// read decodes with another library.
func read(t testing.TB, s Symbol, hints map[gozxing.DecodeHintType]any) string {
	t.Helper()
	bitmap, err := gozxing.NewBinaryBitmapFromImage(rendered(s, 3))
	if err != nil {
		t.Fatal(err)
	}
	var reader gozxing.Reader = oned.NewCode128Reader()
	switch s.Symbology {
	case QR:
		reader = qrcode.NewQRCodeReader()
	case EAN13:
		reader = oned.NewEAN13Reader()
	case EAN8:
		reader = oned.NewEAN8Reader()
	}
	result, err := reader.Decode(bitmap, hints)
	if err != nil {
		t.Fatalf("%s %q is not read: %v", s.Symbology, s.Data, err)
	}
	return result.GetText()
}

// values are the symbols of a Code 128, start first, without its stop, found by the widths of bars and gaps in the writer of another library: it
// has no table to ask, so each value is drawn by itself.
func values(t *testing.T, s Symbol) []int {
	t.Helper()
	var found []int
	for x := 0; x+13 < s.Wide; x += 11 {
		n := slices.IndexFunc(patterns, func(p string) bool { return widths(s, x, 6) == p })
		if n < 0 {
			t.Fatalf("the modules from %d are no symbol: %s", x, widths(s, x, 6))
		}
		found = append(found, n)
	}
	return found
}

// widths are those of so many bars and gaps from a module on.
func widths(s Symbol, from, bars int) string {
	var out strings.Builder
	for i := range bars {
		n := 0
		for from < s.Wide && s.Dark(from, 0) == (i%2 == 0) && n < 9 {
			n, from = n+1, from+1
		}
		out.WriteByte(byte('0' + n))
	}
	return out.String()
}

// patterns of Code 128 by value: widths of bar, gap, bar, gap, bar, gap (ISO/IEC 15417, from memory; every value's six widths add up to 11 and no
// two are alike, which is tested).
var patterns = strings.Fields(`212222 222122 222221 121223 121322 131222 122213 122312 132212 221213 221312 231212 112232 122132 122231 113222
	123122 123221 223211 221132 221231 213212 223112 312131 311222 321122 321221 312212 322112 322211 212123 212321 232121 111323 131123 131321
	112313 132113 132311 211313 231113 231311 112133 112331 132131 113123 113321 133121 313121 211331 231131 213113 213311 213131 311123 311321
	331121 312113 312311 332111 314111 221411 431111 111224 111422 121124 121421 141122 141221 112214 112412 122114 122411 142112 142211 241211
	221114 413111 241112 134111 111242 121142 121241 114212 124112 124211 411212 421112 421211 212141 214121 412121 111143 111341 131141 114113
	114311 411113 411311 113141 114131 311141 411131 211412 211214 211232`)

func TestPatterns(t *testing.T) {
	for i, p := range patterns {
		sum := 0
		for _, w := range p {
			sum += int(w - '0')
		}
		if sum != 11 || slices.Index(patterns, p) != i {
			t.Errorf("value %d: %s", i, p)
		}
	}
	if len(patterns) != 106 {
		t.Errorf("%d patterns", len(patterns))
	}
}

// checksum by its published rule: start plus the sum of position times value, modulo 103.
func checksum(values []int) int {
	sum := values[0]
	for i, v := range values[1:] {
		sum += (i + 1) * v
	}
	return sum % 103
}

// Worked examples (quoted, added up again by hand).
func TestChecksumRule(t *testing.T) {
	for _, c := range []struct {
		name   string
		values []int
		want   int
	}{
		{"PJJ123C in set A", []int{103, 48, 42, 42, 17, 18, 19, 35}, 54},
		{"HI345678, A then C", []int{103, 40, 41, 99, 34, 56, 78}, 67},
		{"345678 in C", []int{105, 34, 56, 78}, 73},
	} {
		if got := checksum(c.values); got != c.want {
			t.Errorf("%s: %d, want %d", c.name, got, c.want)
		}
	}
}

// (01)09521234543213(17)261231(10)ABC123, symbol by symbol: start C, FNC1, pairs of digits, code B, ABC123, check 19; 266 modules, 286 with quiet
// zones (worked by hand from the General Specifications).
func TestGS1SymbolBySymbol(t *testing.T) {
	s, err := EncodeGS1(Elements{{"01", "09521234543213"}, {"17", "261231"}, {"10", "ABC123"}})
	if err != nil {
		t.Fatal(err)
	}
	want := []int{105, 102, 1, 9, 52, 12, 34, 54, 32, 13, 17, 26, 12, 31, 10, 100, 33, 34, 35, 17, 18, 19, 19}
	if got := values(t, s); !slices.Equal(got, want) {
		t.Errorf("%v\nwant %v", got, want)
	}
	if s.Wide != 266 || s.AcrossModules() != 286 || !s.Linear() {
		t.Errorf("%d modules, %d with quiet zones", s.Wide, s.AcrossModules())
	}
	if mm := float64(s.AcrossModules()) * TradeModuleMm; math.Abs(mm-141.6) > 0.05 {
		t.Errorf("%.1f mm at %.3f mm, want 141.6", mm, TradeModuleMm)
	}
}

// 345678 is start C, three pairs and check 73, as published.
func TestCode128SymbolBySymbol(t *testing.T) {
	s, err := EncodeCode128("345678")
	if err != nil {
		t.Fatal(err)
	}
	if got, want := values(t, s), []int{105, 34, 56, 78, 73}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
}

// Every symbol that is made is read back by another library, and its check symbol is the one that the rule gives.
func TestCode128ReadsBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		text := rapid.OneOf(rapid.StringMatching(`[ -~]{1,40}`), rapid.StringMatching(`[A-Z]{0,3}[0-9]{1,20}[a-z]{0,3}`)).Draw(rt, "text")
		s, err := EncodeCode128(text)
		if err != nil {
			rt.Fatal(err)
		}
		if got := read(t, s, nil); got != text {
			rt.Fatalf("%q is read as %q", text, got)
		}
		all := values(t, s)
		last := len(all) - 1
		if got := checksum(all[:last]); got != all[last] {
			rt.Fatalf("%q: check %d, want %d", text, all[last], got)
		}
		if s.Wide != 11*len(all)+13 {
			rt.Fatalf("%d modules for %d symbols", s.Wide, len(all))
		}
	})
}

// Elements come back from GS1-128 with their separators.
func TestGS1ReadsBack(t *testing.T) {
	assume := map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_ASSUME_GS1: true}
	rapid.Check(t, func(rt *rapid.T) {
		text := rapid.OneOf(rapid.StringMatching(`[A-Z0-9]{1,12}`), rapid.StringOfN(rapid.RuneFrom([]rune("AZaz09"+textSigns)), 1, 12, -1), rapid.StringMatching(`[0-9]{1,12}`))
		all := Elements{{"17", "261231"}, {"10", text.Draw(rt, "lot")}, {"21", text.Draw(rt, "serial")}, {"3103", "000680"}}
		all = rapid.Permutation(all).Draw(rt, "order")
		s, err := EncodeGS1(all)
		if err != nil {
			rt.Fatal(err)
		}
		got := read(t, s, assume)
		// The other library takes a check symbol of 102 for a separator at the end.
		if strings.TrimSuffix(got, string(Separator)) != "]C1"+s.Data {
			rt.Fatalf("%q is read as %q", s.Data, got)
		}
		if back, err := Scanned(got); err != nil || !slices.Equal(back, all) {
			rt.Fatalf("%v, %v; want %v", back, err, all)
		}
	})
}

// Numbers of items: 95 modules (EAN-13 and UPC-A alike) or 67, read back by another library with all their digits.
func TestEANReadsBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		digits := rapid.StringMatching(`([1-9][0-9]{6}|[1-9][0-9]{10,11})`).Draw(rt, "digits")
		check, err := CheckDigit(digits)
		if err != nil {
			rt.Fatal(err)
		}
		g, err := ParseGTIN(digits + string(check))
		if err != nil {
			rt.Fatal(err)
		}
		s, err := EncodeEAN(g)
		if err != nil {
			rt.Fatal(err)
		}
		wide := 95
		if s.Symbology == EAN8 {
			wide = 67
		}
		if got := read(t, s, nil); strings.Repeat("0", 14-len(got))+got != string(g) || s.Wide != wide || s.Readable != digits+string(check) {
			rt.Fatalf("%s is read as %q, %d modules, below it %s", g, got, s.Wide, s.Readable)
		}
	})
	for gtin, readable := range map[GTIN]string{"04006381333931": "4006381333931", "00036000291452": "036000291452"} {
		if s, err := EncodeEAN(gtin); err != nil || s.Readable != readable {
			t.Errorf("%s: %q, %v", gtin, s.Readable, err)
		}
	}
}

func TestQRReadsBack(t *testing.T) {
	for _, text := range []string{"https://id.gs1.org/01/09521234543213/10/ABC123?17=261231", "12345678901", "HEAT TO 165", "Żurek z jajkiem, 680 g", "Soupe à l’oignon", "とん汁", "a"} {
		for level := Low; level <= High; level++ {
			s, err := EncodeQR(text, level)
			if err != nil {
				t.Fatalf("%q: %v", text, err)
			}
			if got := read(t, s, nil); got != text {
				t.Errorf("%q is read as %q", text, got)
			}
			if s.Quiet != 4 || s.Wide != s.Rows || s.Wide < 21 || (s.Wide-17)%4 != 0 { // sizes of ISO/IEC 18004
				t.Errorf("%q: %d by %d with %d", text, s.Wide, s.Rows, s.Quiet)
			}
		}
	}
	rapid.Check(t, func(rt *rapid.T) {
		text := rapid.StringMatching(`https://[a-z]{1,20}\.example/01/[0-9]{14}(/10/[A-Z0-9%.-]{1,20})?(\?17=[0-9]{6})?`).Draw(rt, "link")
		s, err := EncodeQR(text, Medium)
		if err != nil {
			rt.Fatal(err)
		}
		// The other library does not always find an upright symbol without a blemish in a picture of it; it is told that there is nothing else.
		if got := read(t, s, map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_PURE_BARCODE: true}); got != text {
			rt.Fatalf("%q is read as %q", text, got)
		}
	})
}

// What cannot be encoded is told with the character and what to do; ñ above all, which some encoders take for a function.
func TestWhatCannotBeEncoded(t *testing.T) {
	for _, c := range []struct {
		err  error
		says string
	}{
		{second(EncodeCode128("jalapeño")), `character 7 is 'ñ', which Code 128 does not have`},
		{second(EncodeCode128("суп")), `character 1 is 'с'`},
		{second(EncodeCode128("a\tb")), `character 2 is '\t'`},
		{second(EncodeCode128("")), "0 characters"},
		{second(EncodeCode128(strings.Repeat("a", 81))), "81 characters"},
		{second(EncodeGS1(Elements{{"10", strings.Repeat("a", 20)}, {"21", strings.Repeat("b", 20)}, {"17", "261231"}})), "holds 48"},
		{second(EncodeGS1(nil)), "none"},
		{second(EncodeEAN("10614141000415")), "a case"},
		{second(EncodeEAN("4006381333931")), "no GTIN"},
		{second(EncodeEAN("04006381333932")), "no GTIN"},
		{second(EncodeQR("", Low)), "empty"},
		{second(EncodeQR("\xff", Low)), "no text"},
		{second(EncodeQR(strings.Repeat("ö", 2000), Low)), "2000 characters"},
		{second(EncodeQR("a", 7)), "correction"},
	} {
		if c.err == nil || !strings.Contains(c.err.Error(), c.says) {
			t.Errorf("%v; want it to say %q", c.err, c.says)
		}
	}
}

func second(_ Symbol, err error) error { return err }

// Runs cover the dark modules and nothing else.
func TestRunsAreTheModules(t *testing.T) {
	s, err := EncodeQR("https://id.gs1.org/01/09521234543213", Quarter)
	if err != nil {
		t.Fatal(err)
	}
	covered := map[[2]int]bool{}
	for r := range s.Runs() {
		for y := range r.H {
			for x := range r.W {
				covered[[2]int{r.X + x, r.Y + y}] = true
			}
		}
	}
	for y := -1; y <= s.Rows; y++ {
		for x := -1; x <= s.Wide; x++ {
			if covered[[2]int{x, y}] != s.Dark(x, y) {
				t.Fatalf("module %d, %d", x, y)
			}
		}
	}
}

func BenchmarkGS1(b *testing.B) {
	for b.Loop() {
		if _, err := EncodeGS1(Elements{{"01", "09521234543213"}, {"17", "261231"}, {"10", "ABC123"}}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkQR(b *testing.B) {
	for b.Loop() {
		if _, err := EncodeQR("https://id.gs1.org/01/09521234543213/10/ABC123?17=261231", Medium); err != nil {
			b.Fatal(err)
		}
	}
}

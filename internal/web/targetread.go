package web

import (
	"fmt"
	"strconv"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// readCount reads a number of packs as people write it: 160, 1,200 or 160 packs.
func readCount(text string) (int, error) {
	digits := strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(strings.ToLower(strings.TrimSpace(text)), "packs"), "pack"))
	if digits == "" {
		return 0, fmt.Errorf("write a number of packs, such as 160")
	}
	n, err := strconv.Atoi(strings.ReplaceAll(digits, ",", ""))
	switch {
	case err != nil:
		return 0, fmt.Errorf("%q is not a whole number of packs; write for example 160", shorten(text))
	case n < 1:
		return 0, fmt.Errorf("%d packs cannot be made; write 1 or more", n)
	case n > mostPacks:
		return 0, fmt.Errorf("%d packs are more than this program plans (%d)", n, mostPacks)
	}
	return n, nil
}

// readMore reads an amount of an ingredient that is not nothing.
func readMore(text string) (unit.Amount, error) {
	a, err := unit.ParseAmount(text)
	if err == nil && a.Mass == 0 && a.Volume == 0 && a.Count == 0 {
		err = fmt.Errorf("nothing to use up; write an amount such as 20 lb")
	}
	return a, err
}

func readFinish(text string) (unit.Clock, error) {
	if strings.TrimSpace(text) == "" {
		return 0, nil
	}
	return unit.ParseClock(text)
}

// readReserve reads a share; a bare number is per cent.
func readReserve(text string) (unit.Share, error) {
	text = strings.TrimSpace(text)
	if text == "" {
		return 0, nil
	}
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		text += " %"
	}
	s, err := unit.ParseShare(text)
	if err == nil && s > unit.Whole {
		err = fmt.Errorf("%s beyond the need is more than twice what is needed; write 100 %% or less", s)
	}
	return s, err
}

// readRunDay reads the day on which a run begins.
func readRunDay(text string) (string, error) {
	day := strings.TrimSpace(text)
	if day != "" && !isDay(day) {
		return "", fmt.Errorf("%q is no date; write year, month and day, such as 2026-12-01", shorten(day))
	}
	return day, nil
}

// readToday reads the day on which the orders go out for a run.
func readToday(text, day string) (string, error) {
	text = strings.TrimSpace(text)
	left, ok := kitchen.DaysUntil(text, day)
	switch {
	case text == "":
		return "", nil
	case !ok:
		return "", fmt.Errorf("%q is no date; write year, month and day, such as %s", shorten(text), kitchen.DaysBefore(day, 3))
	case left < 0:
		return "", fmt.Errorf("the run starts on %s; write that day or one before it", day)
	}
	return text, nil
}

func clockOrNone(c unit.Clock) string {
	if c == 0 {
		return ""
	}
	return c.String()
}

func shareOrNone(s unit.Share) string {
	if s == 0 {
		return ""
	}
	return s.String()
}

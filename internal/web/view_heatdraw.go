package web

import (
	"html/template"
	"slices"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/heatcase/heatshow"
	"kettlefrost/internal/unit"
)

// Widths and heights of the drawings, so that their type is of plain size on a tablet and on a telephone.
const (
	wideDrawing, tallWide     = 760, 340
	narrowDrawing, tallNarrow = 360, 300
)

// curvePictures are the curves; on a telephone with fewer lines and words, which stand in the tables below.
func curvePictures(a heatcase.Answer) heatDrawing {
	c := heatshow.Curves(a)
	return twice("curve", func(width, height float64) draw.Picture {
		if width == narrowDrawing {
			c = fewer(c)
		}
		c.Width, c.Height = width, height
		return c.Picture()
	})
}

func fewer(c draw.Curves) draw.Curves {
	c.Band.Name = ""
	c.Lines = slices.DeleteFunc(slices.Clone(c.Lines), func(l draw.Line) bool { return l.Kind == draw.Mean })
	c.Limits = slices.Clone(c.Limits)
	for i, l := range c.Limits {
		c.Limits[i].Name = unit.TempC(l.TempC).Show(c.Units) + " limit"
	}
	return c
}

// twice draws a picture for both kinds of screens.
func twice(id string, picture func(width, height float64) draw.Picture) heatDrawing {
	return heatDrawing{
		Wide:   template.HTML(draw.InlineSVG(picture(wideDrawing, tallWide), id+"-wide")),
		Narrow: template.HTML(draw.InlineSVG(picture(narrowDrawing, tallNarrow), id+"-narrow")),
	}
}

// profilePicture is narrow on every screen: there is not much in it.
func profilePicture(a heatcase.Answer, run heatcase.Run) template.HTML {
	low, high := a.FromC, a.ToC
	if low > high {
		low, high = high, low
	}
	p := draw.Profile{Title: "Temperatures through the thickness", Desc: "From the lower face to the upper one, at the start and each time the core passes one of the temperatures above.",
		Units: a.Units, LowFace: "bottom", HighFace: "top"}
	if f := a.Food.FreezesAtC; f > low && f < high {
		p.FreezingC = &f
	}
	for _, at := range run.Profiles {
		line := draw.ProfileLine{Name: profileName(at)}
		for _, place := range at.Places {
			line.Places = append(line.Places, draw.Place{DepthM: place.DepthMm / 1000, TempC: place.TempC})
		}
		p.Lines = append(p.Lines, line)
	}
	p.Width, p.Height = narrowDrawing, tallNarrow
	return template.HTML(draw.InlineSVG(p.Picture(), "depth"))
}

func profileName(p heatcase.ProfileTimes) string {
	if p.TimeS == 0 {
		return "start"
	}
	return heatcase.CookTime(p.TimeS).Show(unit.Metric)
}

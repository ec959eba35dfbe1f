package folder

import (
	"kettlefrost/internal/critical"
	"kettlefrost/internal/record"
)

// Record is a critical record as it was judged. Its readings stand in readings.csv, under its point.
type Record struct {
	critical.Verdict
	Lots    []record.Lot `json:"lots"`              // of this folder, that it is about
	Traces  []Trace      `json:"traces,omitempty"`  // what was read, in short
	Decided []Decision   `json:"decided,omitempty"` // what named persons decided on it

	logs []critical.Log
}

// Trace is what was read at one place of the food, in short.
type Trace struct {
	Where       string         `json:"where,omitempty"`
	Instruments []string       `json:"instruments,omitempty"`
	From        record.Instant `json:"from_ms"`
	Until       record.Instant `json:"until_ms"`
	Count       int            `json:"count"`
	Typed       int            `json:"typed"`   // by a person
	Flagged     int            `json:"flagged"` // odd as they came
	LowC        float64        `json:"low_c"`
	HighC       float64        `json:"high_c"`
}

// Decision is what a named person decided on a critical record.
type Decision struct {
	Entry record.ID          `json:"entry"`
	At    record.Instant     `json:"at_ms"`
	Who   string             `json:"who"`
	Lot   record.Lot         `json:"lot"`
	Did   record.Disposition `json:"did"`
	Stood critical.Outcome   `json:"stood,omitempty"` // how the record stood then
	Why   string             `json:"why"`
}

// Thermometer is an instrument that this folder rests on, with its checks before, between and after.
type Thermometer struct {
	ID      string         `json:"id"`
	Name    string         `json:"name,omitempty"`
	Listed  bool           `json:"listed"`             // the book has it
	StatedC float64        `json:"stated_c,omitempty"` // accuracy as its maker says, or as the code allows
	Checks  []Check        `json:"checks"`
	From    record.Instant `json:"from_ms,omitempty"` // first used for this folder
	Until   record.Instant `json:"until_ms,omitempty"`
}

// Check is one check of a thermometer.
type Check struct {
	Entry  record.ID      `json:"entry"`
	At     record.Instant `json:"at_ms"`
	Who    string         `json:"who"`
	Method string         `json:"method"`
	ReadC  float64        `json:"read_c"`
	TrueC  float64        `json:"true_c"`
	AfterC *float64       `json:"after_c,omitempty"`
	Kept   string         `json:"kept"`
	Note   string         `json:"note,omitempty"`
}

// Cold is what a probe read in a place that the lots lay in, while they did.
type Cold struct {
	Place      string         `json:"place"`
	Name       string         `json:"name"`
	Instrument string         `json:"instrument"`
	LimitC     float64        `json:"limit_c"`
	Limit      string         `json:"limit"` // where it comes from
	From       record.Instant `json:"from_ms"`
	Until      record.Instant `json:"until_ms"`
	Readings   int            `json:"readings"` // that count
	Unusable   int            `json:"unusable"` // that do not: no temperature, an impossible one, or one that proves no cold
	UnreadS    float64        `json:"unread_s"` // for so long nothing is known
	OverS      float64        `json:"over_s"`   // over the limit, as far as is known
	Excursions []Excursion    `json:"excursions,omitempty"`
	Days       []ColdDay      `json:"days,omitempty"`
}

// Excursion is a time over the limit, or one of which nothing is known.
type Excursion struct {
	From         record.Instant `json:"from_ms"`
	Until        record.Instant `json:"until_ms"`
	Open         bool           `json:"open,omitempty"` // it goes on
	Kind         string         `json:"kind"`           // too-warm, not-known
	PeakC        *float64       `json:"peak_c,omitempty"`
	MayC         *float64       `json:"may_c,omitempty"`           // with the error of the probe
	AboveMinus5S float64        `json:"above_minus_5_s,omitempty"` // seconds over -5 °C, by the bad end of that error
	Above41S     float64        `json:"above_41f_s,omitempty"`
	UnknownS     float64        `json:"unknown_s,omitempty"`
	Asks         bool           `json:"asks"`     // somebody must look at what lay there
	Answered     bool           `json:"answered"` // and said what was done
}

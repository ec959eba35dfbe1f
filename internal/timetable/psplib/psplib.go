// Package psplib reads scheduling problems in the .sm format of the public PSPLIB (R. Kolisch and A. Sprecher, "PSPLIB - a
// project scheduling problem library", European Journal of Operational Research 96 (1997) 205-216): jobs with one mode each,
// renewable resources, and successors that may begin when a job has ended.
package psplib

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"

	"kettlefrost/internal/timetable"
)

// maxJobs and maxResources keep a broken header from asking for memory.
const (
	maxJobs      = 10_000
	maxResources = 100
)

// section is the part of the file that a line belongs to.
type section int

const (
	header section = iota
	precedence
	requests
	availabilities
)

var titles = map[string]section{
	"PROJECT INFORMATION":    header,
	"PRECEDENCE RELATIONS":   precedence,
	"REQUESTS/DURATIONS":     requests,
	"RESOURCEAVAILABILITIES": availabilities,
}

// reader holds what has been read so far.
type reader struct {
	p        timetable.Problem
	jobs     int
	declared int // renewable resources
	next     [][]int
	seen     []bool // jobs whose duration has been read
	in       section
	capacity bool
}

// Read reads one instance. The horizon is that of the file. Errors name the line.
func Read(r io.Reader) (timetable.Problem, error) {
	var rd reader
	lines := bufio.NewScanner(r)
	for n := 1; lines.Scan(); n++ {
		if err := rd.line(lines.Text()); err != nil {
			return timetable.Problem{}, fmt.Errorf("line %d: %w", n, err)
		}
	}
	if err := lines.Err(); err != nil {
		return timetable.Problem{}, err
	}
	return rd.problem()
}

func (rd *reader) line(text string) error {
	text = strings.TrimSpace(text)
	if text == "" || text[0] == '*' || text[0] == '-' && strings.Trim(text, "-") == "" {
		return nil
	}
	name, value, colon := strings.Cut(text, ":")
	name = strings.TrimSpace(name)
	if in, ok := titles[name]; ok && colon {
		rd.in = in
		return nil
	}
	if rd.in == header {
		return rd.headerLine(name, value)
	}
	numbers, ok := integers(text)
	if !ok { // column titles
		return nil
	}
	switch rd.in {
	case precedence:
		return rd.successors(numbers)
	case requests:
		return rd.request(numbers)
	default:
		return rd.available(numbers)
	}
}

// headerLine takes the number of jobs, the horizon and the kinds of resources.
func (rd *reader) headerLine(name, value string) error {
	fields := strings.Fields(value)
	number := func(most int) (int, error) {
		if len(fields) == 0 {
			return 0, fmt.Errorf("%s: no number", name)
		}
		n, err := strconv.Atoi(fields[0])
		if err != nil || n < 0 || n > most {
			return 0, fmt.Errorf("%s: %q: want 0 to %d", name, fields[0], most)
		}
		return n, nil
	}
	var err error
	switch name {
	case "jobs (incl. supersource/sink )":
		if rd.jobs > 0 {
			return fmt.Errorf("the number of jobs stands there twice")
		}
		rd.jobs, err = number(maxJobs)
		rd.p.Tasks, rd.next, rd.seen = make([]timetable.Task, rd.jobs), make([][]int, rd.jobs), make([]bool, rd.jobs)
	case "horizon":
		rd.p.Horizon, err = number(timetable.MaxMinutes)
	case "- renewable":
		rd.declared, err = number(maxResources)
	case "- nonrenewable", "- doubly constrained":
		var n int
		if n, err = number(maxResources); err == nil && n > 0 {
			return fmt.Errorf("%s resources are not supported", strings.TrimPrefix(name, "- "))
		}
	}
	return err
}

// successors reads job, modes, number of successors, successors.
func (rd *reader) successors(n []int) error {
	job, err := rd.job(n, 3)
	if err != nil {
		return err
	}
	if n[1] != 1 {
		return fmt.Errorf("job %d has %d modes: want 1", n[0], n[1])
	}
	if n[2] != len(n)-3 {
		return fmt.Errorf("job %d: %d successors announced, %d listed", n[0], n[2], len(n)-3)
	}
	if rd.next[job] != nil {
		return fmt.Errorf("successors of job %d stand there twice", n[0])
	}
	rd.next[job] = []int{}
	for _, s := range n[3:] {
		if s < 1 || s > rd.jobs {
			return fmt.Errorf("job %d: there is no successor %d", n[0], s)
		}
		rd.next[job] = append(rd.next[job], s-1)
	}
	return nil
}

// request reads job, mode, duration, demand of each resource.
func (rd *reader) request(n []int) error {
	job, err := rd.job(n, 3)
	if err != nil {
		return err
	}
	if len(n) != 3+rd.declared {
		return fmt.Errorf("job %d: %d demands for %d resources", n[0], len(n)-3, rd.declared)
	}
	if rd.seen[job] {
		return fmt.Errorf("the duration of job %d stands there twice", n[0])
	}
	rd.seen[job] = true
	t := timetable.Task{Name: strconv.Itoa(n[0]), Duration: n[2], Latest: -1}
	for r, amount := range n[3:] {
		if amount != 0 {
			t.Uses = append(t.Uses, timetable.Use{Resource: r, To: n[2], Amount: amount})
		}
	}
	rd.p.Tasks[job] = t
	return nil
}

func (rd *reader) available(n []int) error {
	if len(n) != rd.declared || rd.capacity {
		return fmt.Errorf("%d capacities: want one line for %d resources", len(n), rd.declared)
	}
	rd.capacity = true
	for r, amount := range n {
		rd.p.Resources = append(rd.p.Resources, timetable.Resource{Name: fmt.Sprintf("R %d", r+1), Capacity: timetable.Constant(amount)})
	}
	return nil
}

// job is the index of the job a line begins with.
func (rd *reader) job(n []int, least int) (int, error) {
	if len(n) < least {
		return 0, fmt.Errorf("%d numbers: want at least %d", len(n), least)
	}
	if n[0] < 1 || n[0] > rd.jobs {
		return 0, fmt.Errorf("there is no job %d", n[0])
	}
	return n[0] - 1, nil
}

// problem puts the lags together and checks that nothing is missing.
func (rd *reader) problem() (timetable.Problem, error) {
	if rd.jobs == 0 {
		return timetable.Problem{}, fmt.Errorf("no number of jobs")
	}
	if !rd.capacity && rd.declared > 0 {
		return timetable.Problem{}, fmt.Errorf("no capacities")
	}
	for job, ok := range rd.seen {
		if !ok || rd.next[job] == nil {
			return timetable.Problem{}, fmt.Errorf("job %d: no duration or no list of successors", job+1)
		}
		for _, s := range rd.next[job] {
			rd.p.Lags = append(rd.p.Lags, timetable.Lag{From: job, To: s, Min: rd.p.Tasks[job].Duration})
		}
	}
	if err := rd.p.Validate(); err != nil {
		return timetable.Problem{}, err
	}
	return rd.p, nil
}

// integers splits a line of whole numbers; false when it holds anything else.
func integers(text string) ([]int, bool) {
	var numbers []int
	for _, f := range strings.Fields(text) {
		n, err := strconv.Atoi(f)
		if err != nil {
			return nil, false
		}
		numbers = append(numbers, n)
	}
	return numbers, true
}

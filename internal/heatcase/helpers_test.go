package heatcase

import "kettlefrost/internal/unit"

func lengthMm(mm float64) unit.Length    { return unit.LengthM(mm / 1000) }
func filmOf(w float64) unit.Film         { return unit.Film(w) }
func tempC(c float64) unit.Temp          { return unit.TempC(c) }
func shareOf(percent float64) unit.Share { return unit.ShareOf(percent / 100) }

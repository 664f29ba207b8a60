package jobsheet

import "hourseal/record/schedule"

// CopySchedule: stub
func CopySchedule(file string, data []byte, id, title string, basis schedule.Basis) ([]byte, error) {
	return nil, nil
}

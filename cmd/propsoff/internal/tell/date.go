package tell

import (
	"strings"
	"time"

	"propsoff/assets/words"
)

// Day is a calendar day in full: "5 April 2031".
func Day(t time.Time) words.Text {
	return words.T("date.day", words.Args{"day": words.Whole(t.Day()), "month": monthOf(t), "year": words.Whole(t.Year())})
}

// ShortDay is a day without its year, ShortMonth a month with it, where there is little room: "5 Apr", "Apr 2031".
func ShortDay(t time.Time) words.Text {
	return words.T("date.day-month", words.Args{"day": words.Whole(t.Day()), "month": shortMonthOf(t)})
}

func ShortMonth(t time.Time) words.Text {
	return words.T("date.month-year", words.Args{"month": shortMonthOf(t), "year": words.Whole(t.Year())})
}

// Days is from one day to another.
func Days(from, to time.Time) words.Text {
	if from.Equal(to) {
		return Day(from)
	}
	first := Day(from)
	if from.Year() == to.Year() {
		first = words.T("date.day-month", words.Args{"day": words.Whole(from.Day()), "month": monthOf(from)})
	}
	return words.T("date.span", words.Args{"from": first, "to": Day(to)})
}

func monthOf(t time.Time) words.Text { return words.Of("month", strings.ToLower(t.Month().String())) }
func shortMonthOf(t time.Time) words.Text {
	return words.Of("month-short", strings.ToLower(t.Month().String()))
}

// lasting is a time in hours and minutes.
func lasting(d time.Duration) words.Text {
	m := int64(d.Round(time.Minute) / time.Minute)
	switch {
	case m < 1:
		return words.T("date.minute-less")
	case m < 60:
		return words.T("date.minutes", words.Args{"min": words.Whole(m)})
	}
	return words.T("date.hours", words.Args{"h": words.Whole(m / 60), "min": words.Whole(m % 60)})
}

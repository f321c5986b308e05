package ink

// Example is the sheet of the good-page test, for the tests that draw it.
var Example = example

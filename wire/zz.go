package wire
var debug = false

package editor

var completionTriggers = []string{" ", ":", "{", ",", "\""}

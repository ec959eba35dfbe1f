package web

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"io/fs"
	"net/http"
	"path"
	"slices"
	"sync"
)

// Places of what makes the pages an app that opens without a network. Nothing of what is entered is in them.
const (
	workerPath   = "/worker.js"
	manifestPath = "/manifest.webmanifest"
	offlinePath  = "/offline"
)

// openPaths are given to anybody: a browser asks for them before somebody has signed in, or without saying who asks.
var openPaths = []string{workerPath, manifestPath, offlinePath}

// offlineRoutes are what a device keeps to work without a network.
func (s *server) offlineRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+workerPath, showWorker)
	mux.HandleFunc("GET "+manifestPath, s.showManifest)
	mux.HandleFunc("GET "+offlinePath, s.showOffline)
	mux.HandleFunc("GET /static/icon/{file}", showIcon)
	mux.HandleFunc("GET "+carriedPath+"{token}", s.showCarried)
}

// offlinePage is all that templates/offline.html may show: what a device keeps, and what waits on it. Its script fills it in.
type offlinePage struct{ shell }

var offlineTemplate = parse[offlinePage]("offline")

func (s *server) showOffline(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	v := offlinePage{s.inShell(r, book.Kitchen, "Without a network", "offline")}
	v.Acting = nil // the device keeps this page, whoever acts
	offlineTemplate.show(w, http.StatusOK, v)
}

// showWorker serves the script that stands between the pages and the network. It stands at the top, for a worker sees only what is below it.
func showWorker(w http.ResponseWriter, r *http.Request) {
	script := worker()
	sum := sha256.Sum256(script)
	tag := `"` + hex.EncodeToString(sum[:12]) + `"`
	w.Header().Set("ETag", tag)
	w.Header().Set("Cache-Control", "no-cache")
	if r.Header.Get("If-None-Match") == tag {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	w.Header().Set("Content-Type", "text/javascript; charset=utf-8")
	w.Write(script)
}

// worker is the script with the names of what the pages are made of, and a version that follows from all of it: a browser that finds another
// script takes it as a new worker.
var worker = sync.OnceValue(func() []byte {
	files, version := shellFiles()
	names, _ := json.Marshal(files) // never fails: they are strings
	body, err := static.ReadFile("static/worker.js")
	if err != nil {
		panic(err) // it is part of the program
	}
	return slices.Concat([]byte("'use strict';\nconst SHELL = "), names, []byte(", VERSION = '"+version+"';\n"), body)
})

// shellFiles are the addresses of the styles, scripts and signs of all pages, and the hash of what is in them.
func shellFiles() (files []string, version string) {
	all, err := fs.ReadDir(static, "static")
	if err != nil {
		panic(err)
	}
	sum := sha256.New()
	for _, f := range all {
		if ext := path.Ext(f.Name()); f.Name() == "worker.js" || isShared(f.Name()) || ext != ".css" && ext != ".js" && ext != ".svg" {
			continue
		}
		data, err := static.ReadFile("static/" + f.Name())
		if err != nil {
			panic(err)
		}
		sum.Write([]byte(f.Name() + "\x00"))
		sum.Write(data)
		files = append(files, "/static/"+f.Name())
	}
	for _, url := range bundleURLs() {
		sum.Write([]byte(url)) // its address follows from what is in it
		files = append(files, url)
	}
	return files, hex.EncodeToString(sum.Sum(nil)[:8])
}

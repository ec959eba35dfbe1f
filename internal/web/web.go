// Package web shows a kitchen's plans in a browser: pages that work without JavaScript, the same plan as JSON and as a drawing.
// It reads requests, calls the use cases and puts what they return into words; it decides nothing about food, time or money.
package web

import (
	"context"
	"io/fs"
	"net/http"
	"net/netip"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// House is what the pages ask for; *app.App is one.
type House interface {
	Book() (kitchen.Book, finding.List)
	Plan(ctx context.Context, book kitchen.Book, req kitchen.Request) plan.Plan
	Foods() *foodtable.Table
	Made(book kitchen.Book) []plan.MadeFood
	Retime(ctx context.Context, book kitchen.Book, req kitchen.Request, changes kitchen.Changes) plan.Plan
	Seal(ctx context.Context, book kitchen.Book, req kitchen.Request, weighed []kitchen.Weighed) plan.Sealing
	Week(ctx context.Context, book kitchen.Book) plan.Week
	Filling(book kitchen.Book, id kitchen.PackID, w kitchen.Weighing) (plan.LotWeights, error)
	Now() time.Time
	CoolNow(book kitchen.Book, m plan.MadeFood, much unit.Mass, from unit.Temp) (plan.Plan, error)
}

// Options are what differs from one place to another.
type Options struct {
	Hosts   []string       // names besides localhost and the loopback addresses under which the pages may be asked for, without port
	Schemas fs.FS          // files served below /schema/; none when nil
	Records *app.Records   // what really happened; nil when it is not kept
	Proxies []netip.Prefix // that encrypt and pass requests on; what they say of where a request comes from is believed
	Plain   bool           // other computers may be served without encryption
	Passing bool           // the records are thrown away when the program stops
	// Patience is how long a page waits for its own work before it is shown how far that is; 0 for as long as it takes.
	Patience time.Duration
	End      context.Context // when it is done, long work is stopped; nil for never
}

// New serves the pages of a house.
func New(house House, options Options) http.Handler {
	s := &server{house: house, schemas: options.Schemas, records: options.Records, proxies: options.Proxies, plain: options.Plain, passing: options.Passing, patience: options.Patience}
	end := options.End
	if end == nil {
		end = context.Background()
	}
	s.jobs = app.NewJobs(end, time.Now)
	if s.records != nil {
		s.boards = app.NewBoards(s.records, house)
	}
	s.finder = app.NewFinder(house, s.records, s.boards)
	return guard(options.Hosts, s.encrypted(s.gate(compress(s.drawn(s.routes())))))
}

type server struct {
	house     House
	schemas   fs.FS
	records   *app.Records  // nil when none are kept
	boards    *app.Boards   // of the same records
	labels    *app.Labels   // of packs
	finder    *app.Finder   // of anything
	formulas  app.Formulas  // how all dishes stand in the freezer
	learning  *app.Learning // what they say of the figures of the book; nil when that cannot be asked
	carried   carried       // forms that were sent while nobody was signed in
	jobs      *app.Jobs     // work that takes longer than a page may
	homeCards app.HomeCards // the last that were made
	answered  answered      // forms that were taken in, by what they led to
	proxies   []netip.Prefix
	plain     bool
	passing   bool // the records are thrown away when the program stops
	patience  time.Duration

	mux *http.ServeMux // of all pages
}

// routes is the table of contents.
func (s *server) routes() http.Handler {
	mux := http.NewServeMux()
	s.mux = mux
	mux.HandleFunc("GET /{$}", s.showHome)
	mux.HandleFunc("GET /run/{name}", s.showRun)
	mux.HandleFunc("GET /run/{name}/findings", s.partOf("findings", s.showFindings))
	mux.HandleFunc("GET /run/{name}/buy", s.partOf("buy", s.showShopping))
	mux.HandleFunc("GET /run/{name}/buy.csv", s.showShoppingCSV)
	mux.HandleFunc("GET /run/{name}/day", s.partOf("day", s.showDay))
	mux.HandleFunc("GET /run/{name}/day/sheet", s.partOf("day", s.showSheet))
	mux.HandleFunc("GET /run/{name}/day.svg", s.showDaySVG)
	mux.HandleFunc("GET /run/{name}/day.json", s.showDayJSON)
	mux.HandleFunc("GET /run/{name}/day.ics", s.showDayCalendar)
	mux.HandleFunc("GET /run/{name}/timeline.svg", s.showTimeline)
	mux.HandleFunc("GET /run/{name}/equipment/{of...}", s.showEquipment)
	mux.HandleFunc("GET /run/{name}/next", s.partOf("next", s.showNext))
	mux.HandleFunc("GET /run/{name}/cook", s.partOf("cook", s.showCook))
	mux.HandleFunc("GET /run/{name}/chill", s.partOf("chill", s.showChill))
	mux.HandleFunc("GET /run/{name}/seal", s.partOf("seal", s.showSeal))
	mux.HandleFunc("GET /run/{name}/seal.json", s.showSealJSON)
	mux.HandleFunc("GET /run/{name}/freeze", s.partOf("freeze", s.showFreeze))
	mux.HandleFunc("GET /run/{name}/cards", s.partOf("cards", s.showCards))
	mux.HandleFunc("GET /run/{name}/labels", s.partOf("labels", s.showLabels))
	mux.HandleFunc("GET /run/{name}/money", s.partOf("money", s.showMoney))
	mux.HandleFunc("GET /run/{name}/papers", s.partOf("papers", s.showPapers))
	mux.HandleFunc("GET /run/{name}/papers/{file}", s.partOf("papers", s.showPaper))
	mux.HandleFunc("GET /run/{name}/masses/{dish}", s.showMasses)
	mux.HandleFunc("GET /run/{name}/cooling/{of...}", s.forecast(2, coolingPicture))
	mux.HandleFunc("GET /run/{name}/freezing/{of...}", s.forecast(1, freezingPicture))
	mux.HandleFunc("GET /run/{name}/heating/{of...}", s.forecast(1, heatingPicture))
	mux.HandleFunc("GET /run/{name}/loading/{of...}", s.forecast(1, cabinetPicture))
	mux.HandleFunc("GET /week", s.showWeek)
	mux.HandleFunc("GET /filling", s.showFillings)
	mux.HandleFunc("GET /filling/{pack}", s.showFilling)
	for _, area := range []func(*http.ServeMux){s.enterRoutes, s.boardRoutes, s.coolingRoutes, s.coldRoutes, s.recallRoutes, s.readingRoutes, s.orderRoutes, s.billRoutes, s.peopleRoutes, s.officeRoutes, s.watchRoutes, s.learnRoutes, s.folderRoutes} {
		area(mux)
	}
	s.hazardRoutes(mux)
	s.workshopRoutes(mux)
	s.homeCardRoutes(mux)
	s.labelRoutes(mux)
	s.draftRoutes(mux)
	s.trialRoutes(mux)
	s.keepRoutes(mux)
	s.disperseRoutes(mux)
	s.safetyRoutes(mux)
	s.findRoutes(mux)
	s.bookRoutes(mux)
	s.dishRoutes(mux)
	s.startRoutes(mux)
	s.deviceRoutes(mux)
	s.helpRoutes(mux)
	s.offlineRoutes(mux)
	s.jobRoutes(mux)
	mux.HandleFunc("GET /foods", s.showFoods)
	mux.HandleFunc("GET /form", s.showForm)
	mux.HandleFunc("GET /cool", s.showCool)
	mux.HandleFunc("GET /cool/cooling/{of...}", s.showCoolCurve)
	mux.HandleFunc("GET /heat", s.showHeat)
	mux.HandleFunc("GET /heat.json", s.showHeatJSON)
	mux.HandleFunc("GET /heat.svg", s.showHeatSVG)
	mux.HandleFunc("GET /schema/{file}", s.showSchema)
	mux.HandleFunc("GET /static/{file}", showStatic)
	mux.HandleFunc("/", s.showNothing)
	return s.telling(tellSent(touring(mux)))
}

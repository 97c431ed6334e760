//! The review: marks with what earned or lost them, what was wrong, what happened, what the plant did.

mod evidence;
mod later;
mod pages;

use egui::{Button, Frame, Grid, Margin, ScrollArea, Stroke, Ui, vec2};
use judge::{Area, Mark};
use report::{AreaMarks, Review, WrongThing, doubt_of};
use session::{Command, FiguresLook, Notice, PathLook, ReviewLook};

use crate::parts::{from_right, heading, score_bar, small, strong};
use crate::units::since_arrival;
use crate::wish::Wishes;
use crate::{hints, notebook, notice, palette, plots, wording};
use words::{Words, span};

use pages::{Page, Scroll, ShownMove, move_link, under_way};

pub(crate) use pages::Pages;

/// The screen.
pub(crate) fn screen(
    ui: &mut Ui,
    pages: &mut Pages,
    look: &ReviewLook<'_>,
    told: Option<&Notice>,
    words: Words,
    wishes: &mut Wishes,
) {
    let frame = Frame::NONE.fill(palette::PAPER).inner_margin(Margin::symmetric(16, 10));
    egui::Panel::top("points").frame(frame).show(ui, |ui| {
        head(ui, look.review, words, wishes);
        notice::show(ui, told, words, wishes);
    });
    let half = (ui.available_width() * 0.5).max(560.0);
    egui::Panel::left("marks").resizable(false).exact_size(half).show(ui, |ui| {
        ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
            ui.add_space(4.0);
            overview(ui, look, words);
            ui.add_space(8.0);
            for area in &look.review.areas {
                area_marks(ui, pages, look, area, words);
            }
        });
    });
    egui::CentralPanel::default().show(ui, |ui| right(ui, pages, look, words));
}

fn head(ui: &mut Ui, review: &Review, words: Words, wishes: &mut Wishes) {
    ui.horizontal(|ui| {
        ui.label(palette::bold(format!("{:.0}", review.total_points)).size(40.0).color(palette::ACCENT));
        ui.vertical(|ui| {
            small(ui, words.label("screen-review-of-points"));
            ui.label(palette::bold(words.own(&review.title)).size(17.0));
        });
        ui.add_space(16.0);
        ui.vertical(|ui| {
            ui.label(match wording::series(review.wrong.iter().map(|thing| wrong(thing, words)), words) {
                Some(things) => words.fill("screen-review-wrong", &[("things", things)]),
                None => words.label("screen-review-wrong-nothing"),
            });
            ui.label(match &review.declared {
                Some(kind) => words.fill("screen-review-declared", &[("fault", words.say(kind))]),
                None => words.label("screen-review-declared-nothing"),
            });
        });
        from_right(ui, |ui| {
            if ui.add(Button::new(words.label("screen-review-leave")).min_size(vec2(0.0, 30.0))).clicked() {
                wishes.command(Command::Leave);
            }
            let page = Button::new(words.label("screen-review-save-page")).min_size(vec2(0.0, 30.0));
            if ui.add(page).on_hover_text(words.label("screen-review-save-page-about")).clicked() {
                wishes.command(Command::SavePage);
            }
            let record = Button::new(words.label("screen-review-save-record")).min_size(vec2(0.0, 30.0));
            if ui.add(record).on_hover_text(words.label("screen-ticket-save-about")).clicked() {
                wishes.command(Command::SaveRecord);
            }
            let switch = Button::new(words.units.label()).min_size(vec2(0.0, 30.0));
            if ui.add(switch).on_hover_text(words.label("screen-units-change")).clicked() {
                wishes.command(Command::SetUnits(words.units.other()));
            }
        });
    });
}

/// One thing that was wrong, in words.
fn wrong(thing: &WrongThing, words: Words) -> String {
    let fault = words.say(&thing.kind);
    let place = thing.place.map(|place| words.say(&place));
    match (place, thing.still_there) {
        (None, true) => words.fill("screen-review-still-there", &[("fault", fault)]),
        (None, false) => words.fill("screen-review-gone", &[("fault", fault)]),
        (Some(place), true) => {
            words.fill("screen-review-still-there-at", &[("fault", fault), ("place", place)])
        }
        (Some(place), false) => words.fill("screen-review-gone-at", &[("fault", fault), ("place", place)]),
    }
}

fn overview(ui: &mut Ui, look: &ReviewLook<'_>, words: Words) {
    let review = look.review;
    heading(ui, &words.label("screen-review-marks"));
    Grid::new("areas").num_columns(3).spacing(vec2(12.0, 5.0)).show(ui, |ui| {
        for area in &review.areas {
            strong(ui, words.heading(&area.area));
            score_bar(ui, area.points, area.of, 220.0);
            let (earned, most) = (points(area.points), points(area.of));
            ui.label(words.fill("screen-review-points", &[("points", earned), ("most", most)]));
            ui.end_row();
        }
    });
    let (elapsed, par) = (span(review.time_on_site_min * 60.0), span(review.par_time_min * 60.0));
    let told = words.fill(
        "screen-review-time-and-cost",
        &[("elapsed", elapsed), ("par", par), ("cost", format!("{:.0}", review.parts_cost))],
    );
    small(ui, told);
    for told in hints::taken(look.hints, words) {
        small(ui, told);
    }
}

fn area_marks(ui: &mut Ui, pages: &mut Pages, look: &ReviewLook<'_>, area: &AreaMarks, words: Words) {
    ui.add_space(4.0);
    heading(ui, &words.heading(&area.area));
    small(ui, words.label(about(area.area)));
    for mark in &area.marks {
        mark_row(ui, pages, look, mark, words);
    }
    if area.marks.is_empty() {
        small(ui, words.label("screen-review-nothing-to-mark"));
    }
}

/// Key of what an area of the marks is about.
fn about(area: Area) -> &'static str {
    match area {
        Area::Order => "screen-area-about-order",
        Area::Evidence => "screen-area-about-evidence",
        Area::Refrigerant => "screen-area-about-refrigerant",
        Area::Safety => "screen-area-about-safety",
        Area::Repair => "screen-area-about-repair",
        Area::Time => "screen-area-about-time",
    }
}

fn mark_row(ui: &mut Ui, pages: &mut Pages, look: &ReviewLook<'_>, mark: &Mark, words: Words) {
    let is_full = mark.points >= mark.of - 1.0e-9 && mark.points >= 0.0;
    let (sign, colour) = if is_full {
        ("✔", palette::MOSS)
    } else if mark.points > 1.0e-9 {
        ("◐", palette::INK)
    } else {
        ("✖", palette::BRICK)
    };
    Frame::NONE.stroke(Stroke::new(1.0, palette::RULE)).inner_margin(Margin::symmetric(8, 4)).show(
        ui,
        |ui| {
            ui.set_width(ui.available_width() - 6.0);
            ui.horizontal_top(|ui| {
                ui.allocate_ui(vec2(104.0, 18.0), |ui| {
                    ui.set_min_width(104.0);
                    let told = words.fill(
                        "screen-review-points-signed",
                        &[
                            ("sign", sign.to_owned()),
                            ("points", points(mark.points)),
                            ("most", points(mark.of)),
                        ],
                    );
                    ui.label(palette::bold(told).color(colour));
                });
                ui.vertical(|ui| {
                    ui.add(egui::Label::new(words.reason(&mark.reason, look.call)).wrap());
                    if let Some(number) = mark.entry {
                        move_link(ui, pages, look, number, words);
                    }
                });
            });
        },
    );
}

/// Points with a decimal only where there is one.
fn points(points: f64) -> String {
    let tenths = (points * 10.0).round() / 10.0;
    if tenths.fract() == 0.0 { format!("{tenths:.0}") } else { format!("{tenths:.1}") }
}

fn right(ui: &mut Ui, pages: &mut Pages, look: &ReviewLook<'_>, words: Words) {
    ui.horizontal_wrapped(|ui| {
        let has_path =
            look.dossier.is_some_and(|dossier| dossier.path.is_some()) || look.path != PathLook::Over;
        for page in Page::ALL.into_iter().filter(|page| *page != Page::Path || has_path) {
            let button = Button::selectable(pages.page == page, page.name(words)).frame_when_inactive(true);
            if ui.add(button).clicked() {
                pages.page = page;
            }
        }
    });
    ui.separator();
    match (pages.page, look.dossier) {
        (Page::Timeline, _) => timeline(ui, pages, look, words),
        (Page::Evidence, _) => evidence::page(ui, pages, look, words),
        (Page::Plant, _) => plots::show(ui, look.course, look.notebook, look.arrival_s, words),
        (Page::Cycle, Some(dossier)) => later::cycle(ui, &dossier.cycles, words),
        (Page::Later, Some(dossier)) => later::run_on(ui, &dossier.run_on, words),
        (Page::Path, dossier) => {
            later::path(ui, dossier.and_then(|dossier| dossier.path.as_ref()), look.path, look.call, words);
        }
        (Page::Cycle | Page::Later, None) => to_come(ui, look.figures, words),
        (Page::Refrigerant, _) => refrigerant(ui, look.review, words),
    }
}

/// In the place of figures that are not there.
fn to_come(ui: &mut Ui, figures: FiguresLook, words: Words) {
    match figures {
        FiguresLook::UnderWay(share) => under_way(ui, words.label("screen-review-to-come"), share),
        FiguresLook::Over => {
            small(ui, words.label("screen-review-not-worked-out"));
        }
    }
}

fn timeline(ui: &mut Ui, pages: &mut Pages, look: &ReviewLook<'_>, words: Words) {
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        for entry in look.notebook {
            let is_shown = pages.shown_move.is_some_and(|shown| shown.number == entry.number);
            let fill = if is_shown { palette::ACCENT_WASH } else { palette::SHEET };
            let row = Frame::NONE.fill(fill).inner_margin(Margin::symmetric(4, 2)).show(ui, |ui| {
                ui.set_width(ui.available_width());
                ui.horizontal_top(|ui| {
                    ui.allocate_ui(vec2(26.0, 18.0), |ui| {
                        ui.set_min_width(26.0);
                        ui.label(format!("{}", entry.number));
                    });
                    small(ui, since_arrival(entry.started_s - look.arrival_s));
                    let doubt = doubt_of(&entry.outcome).map(|doubt| words.say(&doubt));
                    ui.vertical(|ui| notebook::text(ui, entry, doubt, look.call, words));
                });
            });
            let wanted = |shown: &&mut ShownMove| is_shown && shown.scroll == Scroll::Wanted;
            if let Some(shown) = pages.shown_move.as_mut().filter(wanted) {
                row.response.scroll_to_me(Some(egui::Align::Center));
                shown.scroll = Scroll::Done;
            }
            ui.separator();
        }
    });
}

fn refrigerant(ui: &mut Ui, review: &Review, words: Words) {
    let balance = &review.refrigerant;
    let rows = [
        ("screen-balance-plate", balance.plate_kg),
        ("screen-balance-start", balance.start_kg),
        ("screen-balance-added", balance.added_kg),
        ("screen-balance-leaked", balance.leaked_kg),
        ("screen-balance-vented", balance.vented_kg),
        ("screen-balance-hoses", balance.hoses_kg),
        ("screen-balance-trapped", balance.trapped_kg),
        ("screen-balance-recovered", balance.recovered_kg),
        ("screen-balance-end", balance.end_kg),
    ];
    Grid::new("refrigerant").num_columns(2).striped(true).spacing(vec2(24.0, 6.0)).show(ui, |ui| {
        for (name, mass_kg) in rows {
            ui.label(words.label(name));
            strong(ui, words.units.mass(mass_kg));
            ui.end_row();
        }
    });
}

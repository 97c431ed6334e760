//! The review: marks with what earned or lost them, what was wrong, what happened, what the plant did.

mod evidence;
mod later;

use egui::{Button, Frame, Grid, Margin, RichText, ScrollArea, Stroke, Ui, vec2};
use judge::{Area, Mark};
use report::{AreaMarks, Review, doubt_of, doubt_words};

use crate::command::Command;
use crate::desk::Desk;
use crate::parts::{from_right, heading, progress_bar, score_bar, small, strong};
use crate::stage::{FiguresLook, PathLook, ReviewLook};
use crate::units::since_arrival;
use crate::{notebook, palette, plots, tickets, wording};
use words::{Words, span};

/// Page of the right half.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Page {
    /// Every move.
    #[default]
    Timeline,
    /// Moves and suspects, and what each reading ruled out.
    Evidence,
    /// Plots.
    Plant,
    /// The refrigerant's cycle.
    Cycle,
    /// What would have happened next.
    Later,
    /// A sound path.
    Path,
    /// Where the refrigerant went.
    Refrigerant,
}

impl Page {
    const ALL: [Page; 7] = [
        Page::Timeline,
        Page::Evidence,
        Page::Plant,
        Page::Cycle,
        Page::Later,
        Page::Path,
        Page::Refrigerant,
    ];

    fn name(self) -> &'static str {
        match self {
            Page::Timeline => "What happened",
            Page::Evidence => "Where the evidence led",
            Page::Plant => "What the plant did",
            Page::Cycle => "The cycle",
            Page::Later => "What would have come next",
            Page::Path => "A sound path",
            Page::Refrigerant => "Where the refrigerant went",
        }
    }
}

/// The screen.
pub fn screen(ui: &mut Ui, desk: &mut Desk, look: &ReviewLook<'_>, commands: &mut Vec<Command>) {
    let frame = Frame::NONE.fill(palette::PAPER).inner_margin(Margin::symmetric(16, 10));
    egui::Panel::top("review head").frame(frame).show(ui, |ui| {
        head(ui, desk, look.review, commands);
        tickets::notice(ui, desk);
    });
    let half = (ui.available_width() * 0.5).max(560.0);
    egui::Panel::left("marks").resizable(false).exact_size(half).show(ui, |ui| {
        ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
            ui.add_space(4.0);
            overview(ui, look);
            ui.add_space(8.0);
            for area in &look.review.areas {
                area_marks(ui, desk, look, area);
            }
        });
    });
    egui::CentralPanel::default().show(ui, |ui| right(ui, desk, look));
}

fn head(ui: &mut Ui, desk: &mut Desk, review: &Review, commands: &mut Vec<Command>) {
    ui.horizontal(|ui| {
        ui.label(palette::bold(format!("{:.0}", review.total_points)).size(40.0).color(palette::ACCENT));
        ui.vertical(|ui| {
            small(ui, "of 100 points");
            ui.label(palette::bold(&review.title).size(17.0));
        });
        ui.add_space(16.0);
        ui.vertical(|ui| {
            ui.label(format!("Wrong: {}", wrong(review)));
            let declared =
                review.declared.map_or("nothing".to_owned(), |kind| wording::lower_first(kind.label()));
            ui.label(format!("You declared: {declared}"));
        });
        from_right(ui, |ui| {
            if ui.add(Button::new("Back to the calls").min_size(vec2(0.0, 30.0))).clicked() {
                commands.push(Command::Leave);
            }
            let page = Button::new("Save as a page  P").min_size(vec2(0.0, 30.0));
            let about_page = "Write this review as one HTML file, in these words, for screen and paper";
            if ui.add(page).on_hover_text(about_page).clicked() {
                commands.push(Command::SavePage);
            }
            let record = Button::new("Save record  S").min_size(vec2(0.0, 30.0));
            if ui.add(record).on_hover_text("Write the visit record").clicked() {
                commands.push(Command::SaveRecord);
            }
            let switch = Button::new(desk.words.units.label()).min_size(vec2(0.0, 30.0));
            if ui.add(switch).on_hover_text("Change the units (U)").clicked() {
                desk.words.units = desk.words.units.other();
            }
        });
    });
}

/// What was wrong, in words.
fn wrong(review: &Review) -> String {
    let things: Vec<String> = review
        .wrong
        .iter()
        .map(|thing| {
            let place = thing.place.map_or(String::new(), |place| format!(" ({})", place.label()));
            let left = if thing.still_there { ", still there" } else { ", gone" };
            format!("{}{place}{left}", wording::lower_first(thing.kind.label()))
        })
        .collect();
    if things.is_empty() { "nothing".to_owned() } else { things.join("; ") }
}

fn overview(ui: &mut Ui, look: &ReviewLook<'_>) {
    let review = look.review;
    heading(ui, "Marks");
    Grid::new("areas").num_columns(3).spacing(vec2(12.0, 5.0)).show(ui, |ui| {
        for area in &review.areas {
            strong(ui, area.area.label());
            score_bar(ui, area.points, area.of, 220.0);
            ui.label(format!("{} of {}", points(area.points), points(area.of)));
            ui.end_row();
        }
    });
    small(
        ui,
        format!(
            "{} on site, a sound visit takes {}. Parts and refrigerant: {:.0}.",
            span(review.time_on_site_min * 60.0),
            span(review.par_time_min * 60.0),
            review.parts_cost
        ),
    );
    if let Some(told) = look.hints.told() {
        small(ui, told);
    }
}

fn area_marks(ui: &mut Ui, desk: &mut Desk, look: &ReviewLook<'_>, area: &AreaMarks) {
    ui.add_space(4.0);
    heading(ui, area.area.label());
    small(ui, about(area.area));
    for mark in &area.marks {
        mark_row(ui, desk, look, mark);
    }
    if area.marks.is_empty() {
        small(ui, "Nothing to mark here.");
    }
}

fn about(area: Area) -> &'static str {
    match area {
        Area::Order => "Whether things were done in a sound order.",
        Area::Evidence => "Whether your readings single out the cause you declared.",
        Area::Refrigerant => "How refrigerant was handled.",
        Area::Safety => "Whether you and the equipment were kept safe.",
        Area::Repair => "Whether the cause is gone, and proven gone.",
        Area::Time => "How long it took.",
    }
}

fn mark_row(ui: &mut Ui, desk: &mut Desk, look: &ReviewLook<'_>, mark: &Mark) {
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
                    ui.label(
                        palette::bold(format!("{sign} {} of {}", points(mark.points), points(mark.of)))
                            .color(colour),
                    );
                });
                ui.vertical(|ui| {
                    ui.add(egui::Label::new(&mark.reason).wrap());
                    if let Some(number) = mark.entry {
                        move_link(ui, desk, look, number);
                    }
                });
            });
        },
    );
}

/// The move that earned or lost a mark; a press shows it among what happened.
fn move_link(ui: &mut Ui, desk: &mut Desk, look: &ReviewLook<'_>, number: u32) {
    let name =
        look.notebook.iter().find(|entry| entry.number == number).map_or(String::new(), |entry| {
            format!(": {}", wording::lower_first(&desk.words.say(&entry.action)))
        });
    let text = RichText::new(format!("Move {number}{name}")).size(palette::SMALL_PX);
    if ui.link(text).on_hover_text("Show it among what happened").clicked() {
        desk.review_page = Page::Timeline;
        desk.shown_move = Some(ShownMove { number, scroll: Scroll::Wanted });
    }
}

/// The move that a mark led to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ShownMove {
    number: u32,
    scroll: Scroll,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Scroll {
    Wanted,
    Done,
}

/// Points with a decimal only where there is one.
fn points(points: f64) -> String {
    let tenths = (points * 10.0).round() / 10.0;
    if tenths.fract() == 0.0 { format!("{tenths:.0}") } else { format!("{tenths:.1}") }
}

fn right(ui: &mut Ui, desk: &mut Desk, look: &ReviewLook<'_>) {
    ui.horizontal_wrapped(|ui| {
        let has_path =
            look.dossier.is_some_and(|dossier| dossier.path.is_some()) || look.path != PathLook::Over;
        for page in Page::ALL.into_iter().filter(|page| *page != Page::Path || has_path) {
            let button = Button::selectable(desk.review_page == page, page.name()).frame_when_inactive(true);
            if ui.add(button).clicked() {
                desk.review_page = page;
            }
        }
    });
    ui.separator();
    match (desk.review_page, look.dossier) {
        (Page::Timeline, _) => timeline(ui, desk, look),
        (Page::Evidence, _) => evidence::page(ui, desk, look),
        (Page::Plant, _) => plots::show(ui, look.trace, look.notebook, look.arrival_s, desk.words),
        (Page::Cycle, Some(dossier)) => later::cycle(ui, &dossier.cycles, desk.words),
        (Page::Later, Some(dossier)) => later::run_on(ui, &dossier.run_on, desk.words),
        (Page::Path, dossier) => {
            later::path(
                ui,
                dossier.and_then(|dossier| dossier.path.as_ref()),
                look.path,
                look.call,
                desk.words,
            );
        }
        (Page::Cycle | Page::Later, None) => to_come(ui, look.figures),
        (Page::Refrigerant, _) => refrigerant(ui, look.review, desk.words),
    }
}

/// In the place of figures that are not there.
fn to_come(ui: &mut Ui, figures: FiguresLook) {
    match figures {
        FiguresLook::UnderWay(share) => under_way(ui, "This is being worked out", share),
        FiguresLook::Over => {
            small(ui, "This could not be worked out for this visit.");
        }
    }
}

/// What is being worked out, and how far it is.
fn under_way(ui: &mut Ui, what: &str, share: f32) {
    strong(ui, what);
    progress_bar(ui, share, ui.available_width() - 8.0, format!("{:.0} %", 100.0 * share));
}

fn timeline(ui: &mut Ui, desk: &mut Desk, look: &ReviewLook<'_>) {
    let words = desk.words;
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        for entry in look.notebook {
            let is_shown = desk.shown_move.is_some_and(|shown| shown.number == entry.number);
            let fill = if is_shown { palette::ACCENT_WASH } else { palette::SHEET };
            let row = Frame::NONE.fill(fill).inner_margin(Margin::symmetric(4, 2)).show(ui, |ui| {
                ui.set_width(ui.available_width());
                ui.horizontal_top(|ui| {
                    ui.allocate_ui(vec2(26.0, 18.0), |ui| {
                        ui.set_min_width(26.0);
                        ui.label(format!("{}", entry.number));
                    });
                    small(ui, since_arrival(entry.started_s - look.arrival_s));
                    let doubt = doubt_of(&entry.outcome).map(doubt_words);
                    ui.vertical(|ui| notebook::text(ui, entry, doubt, look.call, desk.words));
                });
            });
            let wanted = |shown: &&mut ShownMove| is_shown && shown.scroll == Scroll::Wanted;
            if let Some(shown) = desk.shown_move.as_mut().filter(wanted) {
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
        ("On the data plate", balance.plate_kg),
        ("In the circuit before all this", balance.start_kg),
        ("Put in by you", balance.added_kg),
        ("Leaked away", balance.leaked_kg),
        ("Let into the air", balance.vented_kg),
        ("Lost with the hoses", balance.hoses_kg),
        ("Left in the hoses", balance.trapped_kg),
        ("Recovered into a cylinder", balance.recovered_kg),
        ("In the circuit at the end", balance.end_kg),
    ];
    Grid::new("refrigerant").num_columns(2).striped(true).spacing(vec2(24.0, 6.0)).show(ui, |ui| {
        for (name, mass_kg) in rows {
            ui.label(name);
            strong(ui, words.units.mass(mass_kg));
            ui.end_row();
        }
    });
}

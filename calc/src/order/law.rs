//! The rules of law behind the stops, each with its words, its source and how it was seen.

#![allow(
    missing_docs,
    reason = "each constant is a rule that carries its own words and source"
)]

use super::country::Rule;
use crate::source::{Seen, Source};

const fn rule(words: &'static str, document: &'static str, locator: &'static str, seen: Seen) -> Rule {
    Rule {
        words,
        source: Source::new(document, locator, seen),
    }
}

pub const ENGLAND: Rule = rule(
    "Building control (England): building notice or plans are in. Notice of intention to start is given, and two full days have gone by since the end of that day. Ask which stages they want to see.",
    "The Building Regulations 2010 (SI 2010/2214), England",
    "regulation 16(1), version of 1 October 2023",
    Seen::Text,
);
pub const WALES: Rule = rule(
    "Building control (Wales): building notice or plans are in, and notice is given at least two days before the start. Rules change from 1 July 2026: ask which hold today.",
    "The Building Regulations 2010 (SI 2010/2214), Wales; SI 2025/1320 (W. 215)",
    "regulation 16(1), from memory; of the amendment only title and date were read",
    Seen::Memory,
);
pub const SCOTLAND: Rule = rule(
    "Building warrant (Scotland) granted and in hand: number and date. It is an offence to start the work before the warrant is granted.",
    "Building (Scotland) Act 2003 (asp 8)",
    "section 8(1) to (3)",
    Seen::Text,
);
pub const NORTHERN_IRELAND: Rule = rule(
    "Council building control (Northern Ireland): application in. Written notice two clear days before the start, weekends and holidays not counted, and again before structure is covered.",
    "The Building Regulations (Northern Ireland) 2012 (SR 2012/192)",
    "regulation 12(1)(b), (2)(a) and (e), as made",
    Seen::Text,
);
pub const IRELAND: Rule = rule(
    "Building control authority (Ireland): ask whether a commencement notice is due. Where it is, it goes in 14 to 28 days before the start. Ask about planning too.",
    "Building Control Regulations 1997 (Ireland), as amended",
    "Part II",
    Seen::Secondary("a page of South Dublin County Council on notices"),
);
pub const GERMANY: Rule = rule(
    "Building authority (Germany): the law is that of the Land. Ask whether a permit is due. A structural engineer (Statiker) designs beam and propping before the start.",
    "Building codes of the German Länder",
    "changes to load-bearing parts",
    Seen::Secondary("pages of engineers: econstructing.de and loenhoff.de"),
);
pub const USA: Rule = rule(
    "Local building department (USA): ask which permit comes before the start and which stages are inspected. Keep permit and stamped drawings on site.",
    "Building codes of states and cities of the USA",
    "permits for structural alterations",
    Seen::Memory,
);
pub const OTHER: Rule = rule(
    "Check your authority: no country is entered, or none known here. Ask in writing which permit, notice or inspection comes before the start. Keep the answer.",
    "the building authority where the house stands",
    "its answer in writing",
    Seen::Own,
);

pub const PARTY_WALL_ACT: Rule = rule(
    "Wall shared with a neighbour or on the boundary? Party Wall etc. Act 1996: written notice two months before the start, then consent or an award in hand. Not sure: ask a party wall surveyor.",
    "Party Wall etc. Act 1996 (c. 40)",
    "section 3(1) and (2)(a); award from memory, section 10",
    Seen::Text,
);
pub const MUTUAL_WALL: Rule = rule(
    "Wall shared with a neighbour? The 1996 Act does not reach Scotland: title deeds and common interest rule. Neighbour's agreement in writing; not sure: ask a solicitor.",
    "Scottish Law Commission report 163, Boundary Walls (1997)",
    "the existing law: common interest",
    Seen::Secondary("a forum's quotation of the report and of the 1996 Act's extent"),
);
pub const PARTY_NI: Rule = rule(
    "Wall shared with a neighbour? The 1996 Act does not reach Northern Ireland. Neighbour's agreement in writing; not sure: ask a solicitor.",
    "Party Wall etc. Act 1996 (c. 40)",
    "section 22(4): extends to England and Wales only",
    Seen::Secondary("a forum's quotation"),
);
pub const PARTY_IRELAND: Rule = rule(
    "Wall shared with a neighbour? Land and Conveyancing Law Reform Act 2009: agree in writing. Without agreement a works order of the District Court comes first.",
    "Land and Conveyancing Law Reform Act 2009 (Ireland)",
    "section 43 read; sections 44 and 45 in a solicitor's page",
    Seen::Secondary("pierse.ie, neighbours and boundary issues"),
);
pub const PARTY_GERMANY: Rule = rule(
    "Wall shared with a neighbour or on the boundary? The Land's neighbour law rules. Neighbour's agreement in writing; not sure: ask the authority or a lawyer.",
    "Neighbour laws of the German Länder",
    "shared walls",
    Seen::Memory,
);
pub const PARTY_USA: Rule = rule(
    "Wall shared with a neighbour? State law, local law and the deeds rule. Neighbour's agreement in writing; not sure: ask an attorney.",
    "Law of the state",
    "party walls",
    Seen::Memory,
);
pub const PARTY_OTHER: Rule = rule(
    "Wall shared with a neighbour or on the boundary? Check your authority for the law that holds. Neighbour's agreement in writing first.",
    "the law where the house stands",
    "shared walls",
    Seen::Own,
);

pub const CDM: Rule = rule(
    "CDM 2015. Written down: who designs the temporary works, who runs them, who gives the permits. In your own home the client's duties pass to the contractor. Self-build: name them all the same.",
    "Construction (Design and Management) Regulations 2015 (SI 2015/51)",
    "domestic clients",
    Seen::Secondary("industry guidance for clients CDM15/1, section 6, as reprinted"),
);
pub const CDM_NI: Rule = rule(
    "CDM (Northern Ireland) 2016. Written down: who designs the temporary works, who runs them on site, who gives the permits. Self-build: name them all the same.",
    "Construction (Design and Management) Regulations (Northern Ireland) 2016",
    "duties of contractors and designers",
    Seen::Memory,
);
pub const DUTIES_IRELAND: Rule = rule(
    "Construction Regulations 2013. Written down: who designs the temporary works, who runs them on site, who gives the permits. Self-build: name them all the same.",
    "Safety, Health and Welfare at Work (Construction) Regulations 2013 (Ireland)",
    "project supervisors",
    Seen::Memory,
);
pub const DUTIES_GERMANY: Rule = rule(
    "Written down: who designs the propping, who runs it on site, who gives the permits. Several firms: a safety coordinator (Baustellenverordnung). Self-build: name them all the same.",
    "Baustellenverordnung (Germany)",
    "coordinator where several employers work",
    Seen::Memory,
);
pub const DUTIES_USA: Rule = rule(
    "29 CFR 1926.850(a): employers have a written engineering survey by a competent person before demolition. Also written down: who designs the shoring, who runs it, who gives the permits.",
    "29 CFR 1926.850 (USA)",
    "paragraph (a)",
    Seen::Text,
);
pub const DUTIES_OTHER: Rule = rule(
    "Written down: who designs the temporary works, who runs them on site, who gives the permits. Check your authority for the duties the law gives each.",
    "BS 5975:2019",
    "designer, coordinator and supervisor of temporary works",
    Seen::Memory,
);

pub const ASBESTOS_GB: Rule = rule(
    "Asbestos asked. Built or altered before 2000: a refurbishment survey of every place that is cut, its result in hand, what was found gone, before the first hole.",
    "Control of Asbestos Regulations 2012 (SI 2012/632)",
    "regulation 5; houses built before 2000",
    Seen::Secondary("surveyors' guides: pass-surveys.com, sas-asbestos.com"),
);
pub const ASBESTOS_NI: Rule = rule(
    "Asbestos asked. Built or altered before 2000: a refurbishment survey of every place that is cut, its result in hand, what was found gone, before the first hole.",
    "Control of Asbestos Regulations (Northern Ireland) 2012",
    "identification before work",
    Seen::Memory,
);
pub const ASBESTOS_IRELAND: Rule = rule(
    "Asbestos asked. Built or altered before 2000: a refurbishment survey of every place that is cut, its result in hand, what was found gone, before the first hole.",
    "Safety, Health and Welfare at Work (Exposure to Asbestos) Regulations 2006 (Ireland)",
    "identification before work",
    Seen::Memory,
);
pub const ASBESTOS_GERMANY: Rule = rule(
    "Asbestos asked. Built before the ban of 1993: plaster, filler and boards where the wall is cut are tested, the result in hand, before the first hole.",
    "Gefahrstoffverordnung (Germany)",
    "inquiry before work; ban of 31 October 1993",
    Seen::Memory,
);
pub const ASBESTOS_USA: Rule = rule(
    "Asbestos and lead paint asked, whatever the year. Every place that is cut is looked at or tested as state and local rules say, the result in hand, before the first hole.",
    "State and local rules of the USA",
    "asbestos and lead before renovation",
    Seen::Memory,
);
pub const ASBESTOS_OTHER: Rule = rule(
    "Asbestos asked, whatever the year. Every place that is cut is looked at or tested, the result in hand, before the first hole. Check your authority for who may do it.",
    "the authority where the house stands",
    "asbestos before work",
    Seen::Own,
);

pub const HIGHWAYS_ACT: Rule = rule(
    "Prop, raker, fence or skip on a public pavement or road? A licence of the highway authority first, then guards against vehicles, lights and a way past. Note it if there is none.",
    "Highways Act 1980 (c. 66)",
    "section 169(1)",
    Seen::Text,
);
pub const ROADS_SCOTLAND: Rule = rule(
    "Prop, raker, fence or skip on a public pavement or road? Consent of the roads authority first, then guards against vehicles, lights and a way past. Note it if there is none.",
    "Roads (Scotland) Act 1984 (c. 54)",
    "section 58",
    Seen::Secondary("New Roads and Street Works Act 1991, Schedule 8 paragraph 88, which names it"),
);
pub const ROADS_NI: Rule = rule(
    "Prop, raker, fence or skip on a public pavement or road? Consent of the roads department first, then guards against vehicles, lights and a way past. Note it if there is none.",
    "Roads (Northern Ireland) Order 1993",
    "scaffolding and structures on roads",
    Seen::Memory,
);
pub const PAVEMENT_IRELAND: Rule = rule(
    "Prop, raker, fence or skip on a public pavement or road? A licence of the council first, then guards against vehicles, lights and a way past. Note it if there is none.",
    "Council licences for scaffolds and hoardings (Ireland)",
    "public road",
    Seen::Memory,
);
pub const PAVEMENT_GERMANY: Rule = rule(
    "Prop, raker, fence or skip on a public pavement or road? A special-use permit (Sondernutzung) first, then guards against vehicles, lights and a way past. Note it if there is none.",
    "Road laws of the German Länder",
    "special use",
    Seen::Memory,
);
pub const PAVEMENT_USA: Rule = rule(
    "Shore, raker, fence or dumpster on a public sidewalk or street? A city permit first, then guards against vehicles, lights and a way past. Note it if there is none.",
    "City rules of the USA",
    "sidewalk and street permits",
    Seen::Memory,
);
pub const PAVEMENT_OTHER: Rule = rule(
    "Prop, raker, fence or skip on a public pavement or road? Check your authority for the licence, then guards against vehicles, lights and a way past. Note it if there is none.",
    "the road authority where the house stands",
    "use of the public road",
    Seen::Own,
);

pub const SERVICES: Rule = rule(
    "Services off and proved dead: electricity, gas, water, heating, in the wall and under the feet. Traced with a detector and marked. Who turned off what, and when.",
    "services before demolition",
    "shut off, traced, marked",
    Seen::Practice,
);
pub const SERVICES_USA: Rule = rule(
    "Services shut off, capped or controlled outside the building line, utilities told first: electricity, gas, water, sewer. Traced in the wall and marked. Who turned off what, and when.",
    "29 CFR 1926.850 (USA)",
    "paragraph (c)",
    Seen::Text,
);
